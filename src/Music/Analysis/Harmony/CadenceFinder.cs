using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Harmony;

/// <summary>Finds the cadence at each section's end.</summary>
internal static class CadenceFinder
{
    public static IEnumerable<Cadence> Find(Song song, ImmutableArray<PlacedChord> chords)
    {
        for (var i = 0; i < song.Sections.Length; i++)
        {
            var section = song.Sections[i];
            var bars = section.Bars.Select(b => b.Number).ToHashSet();
            var sounding = chords.Where(c => bars.Contains(c.Place.Bar) && c.Reading.Numeral is not null).ToList();
            if (sounding.Count > 0 && Kind(sounding[^1], sounding.LastOrDefault(c => c.Reading.Chord != sounding[^1].Reading.Chord)) is { } kind)
                yield return new(kind, i, section.Name, sounding[^1].Place);
        }
    }

    private static CadenceKind? Kind(PlacedChord last, PlacedChord? before)
    {
        if (last.Reading.Origin.Kind == OriginKind.Applied)
            return null;
        var ending = last.Reading.Numeral!.SemitonesAboveHome;
        if (ending == 7 && last.Reading.Function == HarmonicFunction.LeadsHome && !last.Reading.Numeral.IsInverted)
            return CadenceKind.Half;
        if (before is null || before.Reading.Key != last.Reading.Key)
            return null;
        var fromFive = before.Reading.Function == HarmonicFunction.LeadsHome;
        var fromFour = before.Reading.Numeral!.SemitonesAboveHome == 5 && before.Reading.Origin.Kind != OriginKind.Applied;
        return ending switch
        {
            0 when fromFive => CadenceKind.Authentic,
            0 when fromFour => CadenceKind.Plagal,
            8 or 9 when fromFive && before.Reading.Numeral!.SemitonesAboveHome == 7 => CadenceKind.Deceptive,
            _ => null,
        };
    }
}
