using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>
/// Times tapped against a recording, one a line: "0:12.402 The" or "12.402" is a syllable, "0:12.402 |5" the line of the song's bar 5,
/// "0:12.402 |5.3" its third beat. A line that starts with ";" is a comment.
/// </summary>
public sealed partial record TappedTimes(ImmutableArray<Tap> Syllables, ImmutableArray<TappedBeat> Beats)
{
    /// <summary>Reads lines; null where one is none of these, and <paramref name="wrong"/> says which, from 1.</summary>
    public static TappedTimes? Read(IEnumerable<string> lines, out int wrong)
    {
        var (syllables, beats) = (ImmutableArray.CreateBuilder<Tap>(), ImmutableArray.CreateBuilder<TappedBeat>());
        wrong = 0;
        foreach (var line in lines.Select(l => l.Trim()))
        {
            wrong++;
            if (line.Length == 0 || line[0] == ';')
                continue;
            if (ReadBeat(line) is { } beat)
                beats.Add(beat);
            else if (!line.Contains('|') && Tap.Read(line) is { } tap)
                syllables.Add(tap);
            else
                return null;
        }
        return new(syllables.ToImmutable(), beats.ToImmutable());
    }

    /// <summary>The times without a delay that all of them have: hand, key and loudspeaker are late together.</summary>
    public TappedTimes Without(Seconds delay) =>
        new([.. Syllables.Select(t => t with { At = Later(t.At - delay) })], [.. Beats.Select(t => t with { At = Later(t.At - delay) })]);

    private static Seconds Later(Seconds time) => time.Value < 0 ? default : time;

    private static TappedBeat? ReadBeat(string line)
    {
        var match = BarLine().Match(line);
        return match.Success && TimeText.TryRead(match.Groups[1].Value, out var at)
            ? new(at, int.Parse(match.Groups[2].ValueSpan), match.Groups[3].Success ? int.Parse(match.Groups[3].ValueSpan) - 1 : 0)
            : null;
    }

    [GeneratedRegex(@"^(\S+)\s+\|(\d{1,5})(?:\.([1-9]\d?))?$", RegexOptions.CultureInvariant)]
    private static partial Regex BarLine();
}
