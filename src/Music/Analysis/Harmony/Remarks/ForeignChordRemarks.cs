using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Remarks;

/// <summary>Each distinct chord that isn't simply the key's, with where it comes from and all its places.</summary>
internal static class ForeignChordRemarks
{
    public static IEnumerable<Remark> Of(HarmonicAnalysis analysis) =>
        analysis.Sounding
            .Where(c => IsRemarkable(c.Reading))
            .GroupBy(c => (c.Reading.Key, c.Reading.Chord.Root, c.Reading.Chord.Quality, c.Reading.Origin.Kind, c.Reading.Numeral!.Target))
            .Select(g => Remark([.. g]));

    private static bool IsRemarkable(ChordInContext reading) => reading.Origin.Kind switch
    {
        OriginKind.None or OriginKind.Native or OriginKind.BluesSeventh => false,
        OriginKind.LeadingNote => reading.Key.Mode != Mode.Minor,
        _ => true,
    };

    private static Remark Remark(ImmutableArray<PlacedChord> uses)
    {
        var reading = uses[0].Reading;
        var (kind, sentence) = reading.Origin.Kind switch
        {
            OriginKind.Borrowed or OriginKind.Neapolitan => (RemarkKind.BorrowedChord, Borrowed(reading)),
            OriginKind.Applied => (RemarkKind.AppliedChord, Applied(uses)),
            _ => (RemarkKind.ChromaticChord, Chromatic(reading)),
        };
        return new(kind, sentence, Facts(uses[0]))
        {
            Places = [.. uses.Select(c => c.Place)],
            Usualness = kind == RemarkKind.AppliedChord || HasRoot(reading) ? null : RockRoots.Of(reading.Numeral!),
        };
    }

    private static ImmutableArray<RemarkFact> Facts(PlacedChord chord) =>
        [HarmonyRemarks.Numeral(chord), .. chord.Reading.Reasons.Select(r => new RemarkFact("reason", r, HarmonyRemarks.Method))];

    private static string Borrowed(ChordInContext reading)
    {
        var (spoken, chord) = (ChordSpeech.Of(Plain(reading)), NumeralSpeech.Chord(reading.Numeral!));
        if (reading.Origin.Kind == OriginKind.Neapolitan)
            return $"{NumberWords.Sentence(chord)}, {spoken}, is the Neapolitan of the textbooks; {NumeralSpeech.Of(On(reading, Mode.Phrygian))} holds it.";
        var from = NumeralSpeech.Of(On(reading, reading.Origin.From[0]));
        var near = reading.Origin.From.Skip(1).FirstOrDefault(m => m.Intervals.Except(reading.Key.Mode.Intervals).Count() == 1);
        var too = near is null ? "" : $" {NumeralSpeech.Of(On(reading, near))}, which differs from {NumeralSpeech.Of(reading.Key)} in one note, has it too.";
        return Turn(reading) is { } turns
            ? $"{NumberWords.Sentence(chord)} turns {turns}: {spoken} is borrowed from {from}.{too}"
            : $"{NumberWords.Sentence(chord)}, {spoken}, is borrowed from {from}.{too}";
    }

    /// <summary>"minor" where the key has a chord on that root whose third or fifth differs.</summary>
    private static string? Turn(ChordInContext reading)
    {
        if (!HasRoot(reading))
            return null;
        var root = reading.Numeral!.SemitonesAboveHome;
        var own = reading.Key.Triad(1 + reading.Key.Mode.Intervals.Select(i => i.Semitones).ToList().IndexOf(root)).Quality;
        var now = Word(reading.Chord.Quality);
        return now == Word(own) ? null : now;
    }

    /// <summary>A triad's quality; a four-note chord has that of its triad.</summary>
    private static string? Word(ChordQuality quality) =>
        ChordTraits.IsDiminished(quality) ? "diminished" : ChordTraits.IsAugmented(quality) ? "augmented" : ChordTraits.HasMinorThird(quality) ? "minor"
            : ChordTraits.HasMajorThird(quality) ? "major" : null;

    private static bool HasRoot(ChordInContext reading) => reading.Key.Mode.Intervals.Any(i => i.Semitones == reading.Numeral!.SemitonesAboveHome);

    private static string Applied(ImmutableArray<PlacedChord> uses)
    {
        var reading = uses[0].Reading;
        var (numeral, target) = (reading.Numeral!, reading.Numeral!.Target!);
        var (spoken, goal) = (ChordSpeech.Of(Plain(reading)), ChordSpeech.Of(target.In(reading.Key)));
        var place = numeral.Root.Degree.Degree switch { 2 => $"is the two chord of {goal}", 7 => $"leads up a half step to {goal}",
            _ => $"is the five chord of {goal}" };
        var follows = numeral.Root.Degree.Degree == 2 ? ", whose five chord follows"
            : Arrivals(uses) switch
            {
                var n when n == uses.Length => $", and {goal} follows",
                0 => $", but {goal} does not follow",
                var n => $"; {goal} follows in {NumberWords.Of(n)} of {NumberWords.Of(uses.Length)} places",
            };
        return $"{spoken} {place}, {NumeralSpeech.Chord(target)}, as if that were home{follows}.";
    }

    private static int Arrivals(ImmutableArray<PlacedChord> uses) =>
        uses.Count(u => !u.Reading.Reasons[0].EndsWith("does not follow", StringComparison.Ordinal));

    private static string Chromatic(ChordInContext reading)
    {
        var (spoken, chord) = (ChordSpeech.Of(Plain(reading)), NumeralSpeech.Chord(reading.Numeral!));
        return reading.Origin.Kind switch
        {
            OriginKind.AugmentedSixth => $"{spoken} opens out to the five chord: textbooks call it an augmented "
                + $"sixth{(reading.Numeral!.Sixth is { } sixth ? $", the {sixth} one" : "")}.",
            OriginKind.TritoneSubstitute => $"{spoken} stands for the five chord and falls a half step home.",
            OriginKind.PassingDiminished => $"{spoken} is a passing chord: it shares a note with the root of the chord that follows.",
            OriginKind.ChromaticMediant =>
                $"{NumberWords.Sentence(chord)}, {spoken}, lies a third from home and is not the key's own; textbooks call it a chromatic mediant.",
            OriginKind.Coloured or OriginKind.Chromatic when Turn(reading) is { } turns =>
                $"{NumberWords.Sentence(chord)} turns {turns}: {spoken}. {NumberWords.Sentence(Foreign(reading))}.",
            OriginKind.Coloured => $"{spoken} is {chord} with a note of colour: {Foreign(reading)}.",
            OriginKind.LeadingNote => $"{spoken} leads home by a raised seventh degree: {Foreign(reading)}.",
            _ => $"{spoken}, on {Degree(reading)}, belongs to no mode on {ChordSpeech.Of(reading.Key.Tonic)}: {Foreign(reading)}.",
        };
    }

    private static string Degree(ChordInContext reading) => $"the {NumeralSpeech.Root(reading.Numeral!)}";

    private static string Foreign(ChordInContext reading)
    {
        var scale = Tones.Of(reading.Key.Mode);
        var notes = reading.Chord.Notes.Where(n => !scale.Has(FunctionalDegree.Above(n, reading.Key))).Select(n => ChordSpeech.Of(n)).ToList();
        return $"{NumberWords.List(notes)} {(notes.Count == 1 ? "is" : "are")} not in {NumeralSpeech.Of(reading.Key)}";
    }

    /// <summary>The chord over its own root: the bass is another matter.</summary>
    private static Chord Plain(ChordInContext reading) => Chord.Of(reading.Chord.Root, reading.Chord.Quality);

    private static Key On(ChordInContext reading, Mode mode) => reading.Key with { Mode = mode };
}
