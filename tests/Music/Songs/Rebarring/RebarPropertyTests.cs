using System.Text;
using CsCheck;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs.Rebarring;

/// <summary>Any song, any change: what starts stays at its second, and back again is the file byte for byte.</summary>
public class RebarPropertyTests
{
    private static readonly Gen<BarChange> Changes =
        from level in SongGen.OneOf([TempoLevel.Same, .. TempoLevel.Named.Select(n => n.Level)])
        from meter in SongGen.OneOf<Meter?>(null, null, Meter.Of(4, 4), Meter.Of(3, 4), Meter.Of(12, 8), Meter.Of(6, 8), Meter.Of(7, 8))
        from later in SongGen.OneOf(Beats.Zero, Beats.Zero, Beats.Whole(1), Beats.Whole(2), Beats.Whole(-1), Beats.Fraction(1, 2))
        select new BarChange(level, meter, later);

    /// <summary>Files as people leave them: comments between and behind lines, other line ends, borders that were heard or decided.</summary>
    private static readonly Gen<string> Files =
        from song in SongGen.Songs
        from seed in Gen.Int[0, int.MaxValue]
        select Untidied(SongText.Write(song), new Random(seed));

    private static string Untidied(string text, Random random)
    {
        var lines = text.TrimEnd('\n').Split('\n').SelectMany((line, i) => random.Next(8) switch
        {
            0 when line.Length > 0 => [$"{line}   ; note {i}"],
            1 => [$"; line {i}", line],
            2 => ["", line],
            3 when line.StartsWith("section", StringComparison.Ordinal) && line.Contains("~heard", StringComparison.Ordinal) => [line[..line.IndexOf('~')]],
            _ => new[] { line },
        });
        return string.Join(random.Next(4) == 0 ? "\r\n" : "\n", lines) + "\n";
    }

    private static Rebarred? TryRebar(SongDocument document, BarChange change)
    {
        try
        {
            return SongRebarring.Of(document, change);
        }
        catch (RebarException)
        {
            return null;
        }
    }

    [Fact]
    public void EveryClaimStaysAtItsSecond() => Gen.Select(Files, Changes).Sample((text, change) =>
    {
        var before = SongText.Parse(text, "before");
        if (before.Song is null || TryRebar(before, change) is not { } made)
            return;
        var after = SongText.Parse(made.Text, "after");
        Assert.True(after.Song is not null,
            $"{change}\n{string.Join('\n', after.Diagnostics.Where(d => d.Severity == Severity.Error))}\n{text}\n-----\n{made.Text}");
        AssertSame(Starts(before.Song), Starts(after.Song), change, text, made.Text);
        AssertSame(Chords(before.Song), Chords(after.Song), change, text, made.Text);
        Assert.Equal(before.Song.Sections.SelectMany(s => s.Anchors).Select(a => a.At).Distinct(),
            [.. after.Song.Sections.SelectMany(s => s.Anchors).Where(a => a.Standing.Kind != StandingKind.Assumed).Select(a => a.At).Distinct()]);
    }, iter: 300);

    [Fact]
    public void NoCommentIsLost() => Gen.Select(Files, Changes).Sample((text, change) =>
    {
        var before = SongText.Parse(text, "before");
        if (before.Song is not null && TryRebar(before, change) is { } made)
            Assert.Equal(Comments(text), Comments(made.Text));
    }, iter: 100);

    [Fact]
    public void BackAgainIsTheFileByteForByte() => Gen.Select(Files, Changes).Sample((text, change) =>
    {
        var before = SongText.Parse(text, "before");
        if (before.Song is null || TryRebar(before, change) is not { } made)
            return;
        var bytes = Encoding.UTF8.GetBytes(text);
        var file = Encoding.UTF8.GetBytes(made.Text);
        var kept = EarlierText.Read(EarlierText.Keep(bytes, file, change.On(before.Song.Meter.Value).Kept, new(2026, 11, 25)).Write())!;
        var now = SongText.Parse(made.Text, "after").Song!;
        Assert.Equal(bytes, kept.Bytes.ToArray());
        Assert.True(kept.IsBefore(file));
        Assert.False(kept.IsBefore([.. file, (byte)' ']));
        Assert.True(change.Inverse(before.Song.Meter.Value).Undoes(kept, now.Meter.Value, before.Song));
    }, iter: 100);

    private static void AssertSame(List<(string What, double At)> before, List<(string What, double At)> after, BarChange change, string text, string made)
    {
        var same = before.Count == after.Count && before.Zip(after).All(p => p.First.What == p.Second.What && Math.Abs(p.First.At - p.Second.At) < 1e-6);
        Assert.True(same, $"{change}\n{string.Join('\n', before.Except(after).Take(5))}\n  "
            + $"became\n{string.Join('\n', after.Except(before).Take(5))}\n{text}\n-----\n{made}");
    }

    private static List<string> Comments(string text) =>
        [.. text.Split('\n', '\r').SelectMany(l => System.Text.RegularExpressions.Regex.Matches(l, @"; (line|note) \d+")).Select(m => m.Value).Order()];

    private static List<(string, double)> Starts(Song song)
    {
        var clock = new SongClock(song);
        return [.. song.Bars.SelectMany(b => Of(b, "sung", b.Sung).Concat(Of(b, "tune", b.Tune)).Concat(Of(b, "strum", b.Strums)).Concat(Of(b, "harp", b.Harp))
            .Concat(Of(b, "pick", b.Picked)))
            .OrderBy(s => Math.Round(s.Item2, 5)).ThenBy(s => s.Item1, StringComparer.Ordinal)];

        IEnumerable<(string, double)> Of<T>(Bar bar, string part, IEnumerable<Claim<T>> claims) =>
            claims.Select(c => ($"{part} {c.Value} {c.Standing}", clock.TimeOf(bar.Number, c.Start).Value));
    }

    /// <summary>Where chords start and end; a chord that goes on over a bar line is one.</summary>
    private static List<(string, double)> Chords(Song song)
    {
        var clock = new SongClock(song);
        var spans = new List<(string Name, double Start, double End)>();
        foreach (var (bar, claim) in song.Bars.SelectMany(b => b.Chords.Select(c => (b, c))))
        {
            var name = $"{claim.Value.Name} {claim.Standing}";
            var (start, end) = (clock.TimeOf(bar.Number, claim.Start).Value, clock.TimeOf(bar.Number, claim.Start + claim.Length).Value);
            if (spans.Count > 0 && spans[^1].Name == name && Math.Abs(spans[^1].End - start) < 1e-6)
                spans[^1] = spans[^1] with { End = end };
            else
                spans.Add((name, start, end));
        }
        return [.. spans.SelectMany(s => new[] { (s.Name + " starts", s.Start), (s.Name + " ends", s.End) })];
    }
}
