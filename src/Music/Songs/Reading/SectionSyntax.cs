using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>A section as written. Filled line by line, then only read.</summary>
internal sealed class SectionSyntax(LineSyntax header, string name, SectionSyntax? like, Standing standing)
{
    public LineSyntax Header { get; } = header;

    public string Name { get; } = name;

    /// <summary>The section whose bars this one takes over where it gives none of its own.</summary>
    public SectionSyntax? Like { get; } = like;

    public Standing Standing { get; } = standing;

    public List<LineSyntax> AnchorLines { get; } = [];

    public List<(Meter Meter, int FromBar, LineSyntax Line)> Meters { get; } = [];

    public List<KeyLine> Keys { get; } = [];

    /// <summary>Who the section's own line says sings or plays the tune.</summary>
    public TunePlayer? TunePlayer { get; set; }

    /// <summary>The same, taken over where the section doesn't say; null where it is the song's.</summary>
    public TunePlayer? TunePlayerSaid => TunePlayer ?? Like?.TunePlayerSaid;

    public List<PartLine> Lines { get; } = [];

    /// <summary>Parts that said "from", or have a pattern: they may leave bars out.</summary>
    public HashSet<SongPart> Placed { get; } = [];

    /// <summary>The last line that belongs to the section: where an edit adds another.</summary>
    public LineSyntax LastLine { get; set; } = header;

    /// <summary>The first bar that no line of a part gives, patterns aside.</summary>
    public int FirstUnwritten(SongPart part)
    {
        var bar = 1;
        while (Lines.Any(l => l.Voice.Part == part && !l.Repeats && l.FirstBar <= bar && bar < l.EndBar))
            bar++;
        return bar;
    }

    /// <summary>The bar after the last that a part has written, patterns aside.</summary>
    public int NextBar(SongPart part) => Lines.Where(l => l.Voice.Part == part && !l.Repeats).Select(l => l.EndBar).DefaultIfEmpty(1).Max();

    public int NextBar() => Lines.Where(l => !l.Repeats).Select(l => l.EndBar).DefaultIfEmpty(1).Max();

    /// <summary>The parts' bars must agree: the first part written whole says how many there are, and without one the part that reaches furthest.</summary>
    public int BarCount => Like?.BarCount
        ?? (WholeParts().FirstOrDefault() is { } whole ? NextBar(whole.Voice.Part) - 1 : NextBar() - 1);

    public IEnumerable<PartLine> WholeParts() => Lines.Where(l => !Placed.Contains(l.Voice.Part)).OrderBy(l => l.Voice.Part);

    /// <summary>What a voice has in each bar, taken-over bars among it; bars that are written go before patterns.</summary>
    public Dictionary<int, (PartLine Line, BarSyntax Bar)> BarsOf(Voice voice)
    {
        var given = Lines.Where(l => l.Voice.Part == voice.Part).ToLookup(l => l.Repeats);
        var givenWhole = Lines.Any(l => l.Voice.Part == voice.Part) && !Placed.Contains(voice.Part);
        var bars = Like is null || givenWhole ? [] : Like.BarsOf(voice);
        foreach (var lines in new[] { given[true], given[false] })
        {
            foreach (var bar in lines.SelectMany(BarNumbers))
                bars.Remove(bar);
            foreach (var line in lines.Where(l => l.Voice == voice))
            {
                foreach (var bar in BarNumbers(line))
                    bars[bar] = (line, line.BarAt(bar));
            }
        }
        return bars;
    }

    /// <summary>The bars that a line gives; a pattern reaches to the next one of its part, and else to the section's end.</summary>
    private IEnumerable<int> BarNumbers(PartLine line)
    {
        var end = line.EndBar;
        if (line.Repeats)
            end = Lines.Where(l => l.Repeats && l.Voice.Part == line.Voice.Part
                && l.FirstBar > line.FirstBar).Select(l => l.FirstBar).Append(BarCount + 1).Min();
        return Enumerable.Range(line.FirstBar, Math.Max(0, end - line.FirstBar));
    }

    public ImmutableArray<Voice> Voices() =>
        [.. Lines.Select(l => l.Voice).Concat(Like?.Voices() ?? []).Distinct().OrderBy(v => v.Part).ThenBy(v => v.StringIndex)];

    /// <summary>The line that says a bar's key; null where it is the song's.</summary>
    public KeyLine? KeyOf(int bar) => Keys.Where(k => k.FromBar <= bar).OrderBy(k => k.FromBar).LastOrDefault() ?? Like?.KeyOf(bar);

    /// <summary>The meter of each bar: the song's until a meter line says otherwise; 3/8 is felt as the song is.</summary>
    public Meter MeterOf(int bar, Meter song)
    {
        var own = Meters.LastOrDefault(m => m.FromBar <= bar);
        return own.FromBar > 0 ? own.Meter.Among(song) : Like?.MeterOf(bar, song) ?? song;
    }
}
