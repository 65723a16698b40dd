using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Editing;

/// <summary>Edits of one chord.</summary>
internal sealed class ChordEdits(SongSyntax syntax, Meter songMeter)
{
    private static readonly Voice Chords = new(SongPart.Chords);

    private readonly LineEdits lines = new(syntax);

    public IEnumerable<TextEdit> SetChord(int barNumber, Beats beat, string name, Standing standing)
    {
        var (section, bar) = syntax.At(barNumber);
        var meter = section.MeterOf(bar, songMeter);
        if (beat < Beats.Zero || beat >= meter.BarLength)
            throw new ArgumentOutOfRangeException(nameof(beat), beat, $"Bar {barNumber} has {meter.BeatsPerBar} beats, counted from 0.");
        var written = section.BarsOf(Chords).TryGetValue(bar, out var found) ? found : default;
        return written.Line is { } line && section.Lines.Contains(line)
            ? EditInPlace(line, written.Bar, bar, beat, meter, name, standing)
            : [AddLine(section, bar, meter, Others(written.Line, written.Bar, bar, beat, meter).Append(new(bar, beat, Beats.Zero, name, standing)).ToList())];
    }

    public IEnumerable<TextEdit> SetStanding(int barNumber, Beats beat, Standing standing)
    {
        var (section, bar) = syntax.At(barNumber);
        var written = section.BarsOf(Chords).TryGetValue(bar, out var found) ? found.Bar : null;
        var leaf = LeafAt(written, beat, section.MeterOf(bar, songMeter));
        return leaf is { GoesOn: false, Silences: false }
            ? SetChord(barNumber, beat, leaf.Unmarked, standing)
            : throw new ArgumentException($"No chord starts on beat {BeatText.Write(beat)} of bar {barNumber}.", nameof(beat));
    }

    private IEnumerable<TextEdit> EditInPlace(PartLine line, BarSyntax written, int bar, Beats beat, Meter meter, string name, Standing standing)
    {
        var change = LeafAt(written, beat, meter) is { } leaf
            ? new TextEdit(leaf.Raw.Span, name)
            : new TextEdit(written.Between, $" {string.Join(' ', Cells(written, beat, meter, name))} ");
        return lines.SetStandingAt(line.Line, bar, beat, standing).Append(change);
    }

    /// <summary>The bar's cells with the new chord among them; what else they say stays as it is.</summary>
    private static ImmutableArray<string> Cells(BarSyntax? written, Beats beat, Meter meter, string name)
    {
        var others = (written?.Leaves ?? []).Where(l => !l.GoesOn && l.StartIn(meter) != beat).Select(l => new CellEvent(l.StartIn(meter), l.Raw.Text));
        return BarGrid.Cells(meter, [.. others, new CellEvent(beat, name)]);
    }

    /// <summary>
    /// A line of its own for a bar that the section took over or didn't have: between the chords before and after it, else at the section's
    /// end, where it can't shift a meter line that holds "from the next bar".
    /// </summary>
    private TextEdit AddLine(SectionSyntax section, int bar, Meter meter, List<Written> chords)
    {
        var later = section.Lines.FirstOrDefault(l => l.Voice == Chords && l.FirstBar > bar)?.Line;
        var ofLine = chords[^1].Standing;
        var cells = BarGrid.Cells(meter, [.. chords.Select(c => new CellEvent(c.Start, c.Text + (c.Standing == ofLine ? "" : StandingText.Mark(c.Standing))))]);
        var noted = chords.Where(c => c.Standing != ofLine && StandingText.Mark(c.Standing) is null)
            .Select(c => StandingText.WriteAt(bar, c.Start, c.Standing));
        var tail = string.Concat(noted.Prepend(StandingText.Write(ofLine)).Where(t => t.Length > 0).Select(t => "  " + t));
        var put = $"chords from {bar} | {string.Join(' ', cells)} |{tail}";
        return later is null ? lines.After(section.LastLine, put) : lines.Before(later, put);
    }

    /// <summary>What a bar that was taken over says besides.</summary>
    private static IEnumerable<Written> Others(PartLine? line, BarSyntax? written, int bar, Beats beat, Meter meter) =>
        (written?.Leaves ?? [])
            .Where(l => !l.GoesOn && l.StartIn(meter) != beat)
            .Select(l => new Written(bar, l.StartIn(meter), Beats.Zero, l.Unmarked, line!.StandingOf(l, bar, l.StartIn(meter))));

    private static Leaf? LeafAt(BarSyntax? bar, Beats beat, Meter meter) => bar?.Leaves.FirstOrDefault(l => l.StartIn(meter) == beat);
}
