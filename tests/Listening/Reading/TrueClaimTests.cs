using System.Collections.Immutable;
using Harkbook.Listening.Reading;
using Harkbook.Listening.Tests.Checking;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Reading;

/// <summary>
/// A claim that is true lowers nothing that it isn't about by more than a fiftieth: what was played, from a take by our own instruments, is told one fact at a
/// time, and all else is scored against the rest of the truth.
/// </summary>
public class TrueClaimTests(RenderedSong song) : IClassFixture<RenderedSong>
{
    private const double MostLost = 0.02, Near = 0.07;

    public static TheoryData<string> Kinds => ["pitch", "tuning", "capo", "meter", "tempo", "beat", "bar", "key", "chord", "border", "harp", "absent"];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void ATrueClaimLowersNothingElse(string kind)
    {
        var before = Scores(song.Heard);
        var after = Scores(Reader.Again(song.Heard, True(kind), TestContext.Current.CancellationToken));
        Assert.All(before, b => Assert.True(b.Value > 0.5, $"{b.Key} is heard too badly ({b.Value:.000}) to lose anything."));
        Assert.All(before, b =>
            Assert.True(after[b.Key] >= b.Value - MostLost, $"{b.Key} fell from {b.Value:.000} to {after[b.Key]:.000} by the true {kind}."));
    }

    private Claims True(string kind)
    {
        var (bars, none) = (song.BarStarts, Claims.None);
        return kind switch
        {
            "pitch" => none with { ReferencePitch = song.Heard.Evidence.HeardAbout },
            "tuning" => none with { Tuning = Tuning.Parse("D2 A2 D3 G3 B3 E4") },
            "capo" => none with { Capo = Capo.None },
            "meter" => none with { Meter = Meter.CommonTime },
            "tempo" => none with { Tempo = TempoRange.About(96) },
            "beat" => none with { Beats = [new(song.BeatTimes[9])] },
            "bar" => none with { Beats = [new(bars[4], 1)] },
            "key" => none with { Keys = [new(default, song.Heard.Recording.Length, Key.Parse("D major"))] },
            "chord" => none with { Chords = [new(bars[5], bars[6], ChordSymbol.Read("Bm"))] },
            "border" => none with { Borders = [bars[4]] },
            "harp" => none with { HarpKey = PitchName.Parse("D") },
            "absent" => none with { Absent = [LineKind.Whistle] },
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No such claim."),
        };
    }

    /// <summary>Shares of what was played that is read right (0–1).</summary>
    private ImmutableSortedDictionary<string, double> Scores(Hearing hearing)
    {
        var (beats, bars) = (hearing.Beats.Select(b => b.Time), hearing.Beats.Where(b => b.PositionInBar == 1).Select(b => b.Time));
        string[] chords = ["D", "G", "A", "D", "D", "Bm", "G", "A"];
        var middles = song.BarStarts.Zip(song.BarStarts.Skip(1), (a, b) => (a.Value + b.Value) / 2).ToArray();
        return new Dictionary<string, double>
        {
            ["beats"] = F([.. beats], song.BeatTimes),
            ["bar lines"] = F([.. bars], song.BarStarts),
            ["chords"] = middles.Index().Average(m => hearing.Chords.Any(c => c.Start.Value <= m.Item && m.Item < c.End.Value
                && c.Chord.Best.ToString() == chords[m.Index]) ? 1.0 : 0),
            ["key"] = hearing.MainKey?.Best.ToString() == "D major" ? 1 : 0,
            ["tuning"] = hearing.Tuning.Best.Tuning.ToString() == "D2 A2 D3 G3 B3 E4" && hearing.Tuning.Best.Capo == Capo.None ? 1 : 0,
            ["voice"] = hearing.Lines.Of(LineKind.Voice) is null ? 0 : 1,
            ["strings"] = Strings(hearing),
        }.ToImmutableSortedDictionary(StringComparer.Ordinal);
    }

    /// <summary>Beats within 70 ms (S. Dixon, "Onset detection revisited", DAFx 2006, and the beat tracking F-measure of mir_eval).</summary>
    private static double F(Seconds[] heard, IReadOnlyCollection<Seconds> truth)
    {
        var hits = truth.Count(t => heard.Any(h => Math.Abs((h - t).Value) <= Near));
        return 2.0 * hits / (heard.Length + truth.Count);
    }

    /// <summary>Of the picked notes of the intro, those that are heard on their string and fret.</summary>
    private double Strings(Hearing hearing) => song.Played.Average(p => hearing.Notes.Any(n => Math.Abs(n.Onset.Value - p.Time.Value) < Near
        && n.Place is { } place && place.StringIndex == p.StringIndex && place.Fret == p.Fret) ? 1.0 : 0);
}
