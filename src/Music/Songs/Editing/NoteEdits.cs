using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Editing;

/// <summary>
/// Puts one note, breath or silence into a bar, decided, or takes it away. Bars that the section doesn't write itself (none, a pattern's, or those of the
/// section that it is like) are written out first, as they are.
/// </summary>
internal sealed class NoteEdits(SongSyntax syntax, Meter songMeter, Tuning tuning)
{
    private readonly LineEdits lines = new(syntax);

    /// <param name="sign">As a song file writes it; "_" where what sounds ends, "." where nothing is to start.</param>
    public IEnumerable<TextEdit> Set(NotePlace place, string sign)
    {
        var (section, bar) = syntax.At(place.Bar);
        var meter = section.MeterOf(bar, songMeter);
        if (place.At < Beats.Zero || place.At >= meter.BarLength)
            throw new ArgumentOutOfRangeException(nameof(place), place.At, $"Bar {place.Bar} has {meter.BeatsPerBar} beats, counted from 0.");
        var voice = Speaker(section, bar, place, sign);
        if (sign == "." && SignAt(section, bar, voice, place.At) is null)
            return [];
        var own = section.Lines.Where(l => l.Voice.Part == place.Part && !l.Repeats && l.FirstBar <= bar && bar < l.EndBar).ToList();
        return own.FirstOrDefault(l => l.Voice == voice) is { } line ? InPlace(line, bar, meter, place.At, sign)
            : own.Count > 0 ? new StringLineEdits(syntax, tuning).Add(own, bar, voice, new(place.At, sign), b => section.MeterOf(b, songMeter))
            : new WrittenOutBar(syntax, section, bar, b => section.MeterOf(b, songMeter), tuning).With(voice, place.At, sign);
    }

    private IEnumerable<TextEdit> InPlace(PartLine line, int bar, Meter meter, Beats at, string sign)
    {
        var own = line.Standings.Where(e => e.Bar == bar && e.Beat == at).ToImmutableArray();
        var rest = line with { Standings = line.Standings.RemoveRange(own) };
        yield return CellEdit.Of(line.BarAt(bar), line.Line, meter, at, sign);
        foreach (var entry in own)
            yield return lines.Remove(line.Line, entry.At);
        if (sign is not ("." or "_") && rest.StandingAt(bar, at) != Standing.Decided)
            yield return TextEdit.Insert(line.Line.CodeEnd, "  " + Writing.StandingText.WriteAt(bar, at, Standing.Decided));
    }

    /// <summary>The voice of a string; a note that is taken away may stand on the line of the bass.</summary>
    private Voice Speaker(SectionSyntax section, int bar, NotePlace place, string sign)
    {
        var voice = new Voice(place.Part, place.Part == SongPart.Pick ? place.StringIndex : -1);
        var bass = new Voice(SongPart.Pick, Voice.BassIndex);
        return sign == "." && place.Part == SongPart.Pick && SignAt(section, bar, voice, place.At) is null && SignAt(section, bar, bass, place.At) is not null
            ? bass : voice;
    }

    private PlacedLeaf? SignAt(SectionSyntax section, int bar, Voice voice, Beats at) =>
        PickedBars.Placed(section, voice, b => section.MeterOf(b, songMeter)).GetValueOrDefault(bar, []).FirstOrDefault(l => l.Start == at);
}
