using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Editing;

/// <summary>Puts other syllables into bars of a section.</summary>
internal sealed class SungEdits(SongSyntax syntax, Meter songMeter)
{
    /// <param name="first">The section's bar (1 = its first) that the syllables start in.</param>
    public IEnumerable<TextEdit> SetBars(int sectionIndex, int first, IReadOnlyList<ImmutableArray<Claim<string>>> sung)
    {
        var section = syntax.Sections[sectionIndex];
        var script = Script(section, first, sung);
        return new BarCellEdits(syntax, new(SongPart.Sung), "sung").SetBars(section, Enumerable.Range(first, sung.Count),
            bar => $" {string.Join(' ', BarGrid.Cells(section.MeterOf(bar, songMeter), script.Events(bar, Standing.Decided)))} ");
    }

    private VoiceScript Script(SectionSyntax section, int first, IReadOnlyList<ImmutableArray<Claim<string>>> sung)
    {
        var bars = Enumerable.Range(1, section.BarCount).Select(n => new Bar { Number = n, Meter = section.MeterOf(n, songMeter) }).ToImmutableArray();
        return new(bars, sung.SelectMany((claims, i) => claims.Select(c => new Written(first
            + i, c.Start, c.Length, PlainText.Cell(c.Value, isChord: false), c.Standing) { IsSung = true })));
    }
}
