using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Analysis.Harmony.Remarks;

/// <summary>Chords whose very notes bear a second name that is nearly as good here, or better. The song's name stays.</summary>
internal static class NameRemarks
{
    /// <summary>Names this close in cost are rivals.</summary>
    private const double Near = .6;

    private sealed record Rivals(PlacedChord Use, NameInContext Said, NameInContext Other);

    public static IEnumerable<Remark> Of(Song song, HarmonicAnalysis analysis)
    {
        var uses = song.Bars.SelectMany(b => b.Chords).Select(c => c.Value).ToList();
        return uses.Select((u, i) => Find(song, u, analysis.Chords[i], SongWalk.Neighbour(uses, i, -1, c => c.Chord)?.Chord,
            SongWalk.Neighbour(uses, i, 1, c => c.Chord)?.Chord))
            .OfType<Rivals>()
            .GroupBy(r => (r.Use.Reading.Chord, r.Other.Name.Chord))
            .Select(g => Remark([.. g]));
    }

    private static Rivals? Find(Song song, ChordUse use, PlacedChord placed, Chord? before, Chord? after)
    {
        var chord = use.Chord;
        if (chord.IsNone || ChordName.IsSymmetric(chord.Quality))
            return null;
        var names = Rank(song, use, placed.Reading.Key, before, after);
        var said = names.FirstOrDefault(n => n.Name.Chord.Root.PitchClass == chord.Root.PitchClass && n.Name.Chord.Bass.PitchClass == chord.Bass.PitchClass
            && n.Name.Chord.PitchClasses.AsSpan().SequenceEqual(chord.PitchClasses.AsSpan()));
        var other = names.FirstOrDefault(n => n.Name.Chord.Root.PitchClass != chord.Root.PitchClass && n.Name.LeftOut.IsEmpty && IsWhole(n.Name.Chord));
        return said is null || other is null || other.Cost > said.Cost + Near || (said.Fits.IsEmpty && other.Fits.IsEmpty) ? null : new(placed, said, other);
    }

    /// <summary>With a third, and the bass among its own notes: suspensions and chords over a foreign bass have rivals by nature.</summary>
    private static bool IsWhole(Chord chord) =>
        (ChordTraits.HasMajorThird(chord.Quality) || ChordTraits.HasMinorThird(chord.Quality)) && chord.Notes.Contains(chord.Bass);

    private static ImmutableArray<NameInContext> Rank(Song song, ChordUse use, Key key, Chord? before, Chord? after)
    {
        if (use.Shape is null)
            return NamesInContext.Rank(use.Chord.Notes, use.Chord.Bass, key, before, after);
        return NamesInContext.Rank(use.Shape.Pitches(song.Tuning.Value, song.Capo.Value, key.Centre), key, before, after);
    }

    private static Remark Remark(ImmutableArray<Rivals> rivals)
    {
        var (use, said, other) = (rivals[0].Use, rivals[0].Said, rivals[0].Other);
        var (song, rival) = (ChordSpeech.Of(use.Reading.Chord), ChordSpeech.Of(other.Name.Chord));
        var better = other.Cost < said.Cost ? other : said;
        var why = better.Fits.IsEmpty ? "" : $" {(better == said ? song : rival)} fits its neighbours: {string.Join(", and ", better.Fits)}.";
        return new(RemarkKind.OtherName, $"The notes of {song} also read as {rival}.{why}",
            [
                new($"as {use.Reading.Chord}", said.Reason, "chord naming in context; the weights are our judgement"),
                new($"as {other.Name.Symbol}", other.Reason, "chord naming in context; the weights are our judgement"),
            ])
        {
            Places = [.. rivals.Select(r => r.Use.Place)],
        };
    }
}
