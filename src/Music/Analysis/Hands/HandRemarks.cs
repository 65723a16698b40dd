using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Hands;

/// <summary>What is worth saying about how the notes of one shape move to those of the next.</summary>
public static class HandRemarks
{
    private const string StringByString = "frets compared string by string";
    private static readonly string[] FingerNames = ["", "index finger", "middle finger", "ring finger", "little finger"];

    public static IEnumerable<Remark> Of(Song song)
    {
        var changes = ShapeChanges.Of(song);
        return Held(song).Concat(Slides(changes)).Concat(Smoothness(changes)).Concat(Fingers(changes)).Concat(OtherShapes(song, changes));
    }

    /// <summary>A chord gets one other shape at most, the easier before the smoother.</summary>
    private static IEnumerable<Remark> OtherShapes(Song song, ImmutableArray<MadeChange> changes)
    {
        var search = new ShapeSearch(song, changes);
        var places = ShapeChanges.Uses(song).ToLookup(u => u.Use.Name, u => u.Place);
        var easier = EasierShape.In(search);
        var smoother = SmootherShape.In(search).Where(s => easier.All(e => e.Chord.Name != s.Chord.Name));
        return [.. easier.Select(e => Easier(e, Unlike(song), [.. places[e.Chord.Name]])),
            .. smoother.Select(s => Smoother(s, Unlike(song), [.. places[s.Chord.Name]]))];
    }

    private static IEnumerable<Remark> Held(Song song)
    {
        foreach (var group in HeldString.In(song).GroupBy(h => (string.Join(',', h.Bars), h.IsThroughout)))
        {
            var strings = group.OrderByDescending(h => h.StringIndex).ToArray();
            var held = strings[0];
            var who = strings.Length == 1 ? $"The {StringName(held.StringIndex, song)} keeps one note, {ChordSpeech.Of(held.Pitch.Name)},"
                : $"{NumberWords.Capital(strings.Length)} strings keep their notes, "
                    + $"{NumberWords.List([.. strings.Select(h => ChordSpeech.Of(h.Pitch.Name)).Distinct()])},";
            var chords = held.IsThroughout ? "every chord of the song" : NumberWords.List([.. held.Chords.Select(ChordSpeech.Of)]);
            yield return new(RemarkKind.StringHeld, $"{who} through {chords}.",
                [.. strings.Select(h => new RemarkFact($"string {song.Tuning.Value.Count - h.StringIndex}", $"{h.Pitch} through {h.Chords.Length} chords",
                    StringByString))])
            {
                Places = held.IsThroughout ? [] : [.. held.Bars.SelectMany(b => Enumerable.Range(b.First, b.Last - b.First + 1)).Distinct()
                    .Select(n => SongPlace.Of(song.Bars.ElementAt(n - 1)))],
            };
        }
    }

    private static IEnumerable<Remark> Slides(ImmutableArray<MadeChange> changes)
    {
        foreach (var made in changes.Where(c => c.Change.Slide is not null))
        {
            var frets = made.Change.Slide!.Value;
            yield return new(RemarkKind.ShapeSlides,
                $"From {Names(made.Change)} the whole shape slides {NumberWords.Of(Math.Abs(frets), "fret")} {(frets > 0 ? "up" : "down")}, so its voices move "
                    + "in parallel.",
                [new("slide", string.Create(CultureInfo.InvariantCulture, $"{frets:+0;-0} frets"), StringByString)]) { Places = made.Places };
        }
    }

    private static IEnumerable<Remark> Smoothness(ImmutableArray<MadeChange> changes)
    {
        if (changes.Length < 2)
            yield break;
        var ordered = changes.OrderBy(c => c.Change.TotalMotion).ThenBy(c => c.Change.LargestLeap).ToArray();
        var (smooth, wide) = (ordered[0].Change, ordered[^1].Change);
        if (smooth.TotalMotion == wide.TotalMotion)
            yield break;
        yield return new(RemarkKind.ShapeMotion,
            $"The smoothest change is {Names(smooth)}: {Motion(smooth)}. The widest is {Names(wide)}: {Motion(wide)}.",
            [.. new[] { smooth, wide }.Select(Fact)]) { Places = [.. ordered[0].Places, .. ordered[^1].Places] };
    }

    private static RemarkFact Fact(ShapeChange change) => new(
        $"{change.From.Name} to {change.To.Name}",
        $"{Count(change.TotalMotion, "semitone")} in all, largest {change.LargestLeap}, {Count(change.StringsKept, "string")} kept; "
            + $"the chords need {change.LeastMotion} at least",
        "semitones summed over the strings that sound in both shapes; least motion after Tymoczko 2006");

    private static string Count(int number, string thing) => string.Create(CultureInfo.InvariantCulture, $"{number} {thing}{(number == 1 ? "" : "s")}");

    private static string Motion(ShapeChange change)
    {
        var kept = change.StringsKept == 0 ? "no string keeps its note"
            : $"{NumberWords.Of(change.StringsKept, "string")} {(change.StringsKept == 1 ? "keeps its note" : "keep their notes")}";
        return change.TotalMotion == 0 ? kept
            : change.TotalMotion == change.LargestLeap ? $"{kept}, one other moves {NumberWords.Of(change.TotalMotion, "semitone")}"
            : $"{kept}, the others move {NumberWords.Of(change.TotalMotion, "semitone")} in all, {NumberWords.Of(change.LargestLeap)} at most on one string";
    }

    private static IEnumerable<Remark> Fingers(ImmutableArray<MadeChange> changes)
    {
        var kept = changes.Where(c => !c.Change.FingersKept.IsEmpty)
            .DistinctBy(c => string.Join('|', new[] { c.Change.From.Name, c.Change.To.Name }.Order(StringComparer.Ordinal)))
            .OrderByDescending(c => c.Change.FingersKept.Length).ThenByDescending(c => c.Places.Length).ToArray();
        if (kept.Length == 0)
            yield break;
        var most = kept[0].Change;
        var others = kept.Length == 1 ? "" : $" In {NumberWords.Of(kept.Length - 1, "other pair")} of shapes a finger stays too.";
        yield return new(RemarkKind.FingersKept,
            $"From {Names(most)} the {NumberWords.List([.. most.FingersKept.Select(f => FingerNames[f])])} can stay where "
                + $"{(most.FingersKept.Length == 1 ? "it is" : "they are")}.{others}",
            [.. kept.Select(c => new RemarkFact($"{c.Change.From.Name} to {c.Change.To.Name}", $"fingers {string.Join(' ', c.Change.FingersKept)}",
                "same finger, string and fret in both fingerings; the song's own where it gives them, else solved"))])
        {
            Places = [.. kept.SelectMany(c => c.Places).Distinct().OrderBy(p => p.Bar).ThenBy(p => p.Start)],
        };
    }

    private static string Unlike(Song song) => song.Recording is null ? "the same" : "like the record";

    private static Remark Easier(EasierShape easier, string unlike, ImmutableArray<SongPlace> places) =>
        new(RemarkKind.EasierShape,
            $"{ChordSpeech.Of(easier.Chord.Chord)} can also be held as {easier.Easier.Shape.WithoutFingers()}, with the same notes over the same bass in other "
                + $"places, which is easier on the hand. It won't sound quite {unlike}; choose what your hand is at ease with, and stop when it hurts.",
            [new($"cost of {easier.Chord.Shape!.WithoutFingers()}", Cost(easier.Cost), Method),
                new($"cost of {easier.Easier.Shape.WithoutFingers()}", Cost(easier.EasierCost), Method)])
        {
            Places = places,
        };

    private static Remark Smoother(SmootherShape smoother, string unlike, ImmutableArray<SongPlace> places) =>
        new(RemarkKind.SmootherShape,
            $"{ChordSpeech.Of(smoother.Chord.Chord)} can also be held as {smoother.Smoother.Shape.WithoutFingers()}, nearer to the shapes around it: the "
                + $"strings move {NumberWords.Of(smoother.SmootherMotion)} semitones into it and out of it instead of {NumberWords.Of(smoother.Motion)}, and "
                + $"it is {(smoother.SmootherCost > smoother.Cost ? "hardly" : "no")} harder on the hand. It won't sound quite {unlike}; stop when a "
                + "hand hurts.",
            [new("motion", $"{Cost(smoother.SmootherMotion)} instead of {Cost(smoother.Motion)} semitones",
                "semitones summed over the strings that sound in both shapes, into and out of the shape, mean over its places"),
             new("cost to the hand", $"{Cost(smoother.SmootherCost)} instead of {Cost(smoother.Cost)}", Method)])
        {
            Places = places,
        };

    private const string Method = "our judgement of reach, fingers, barres, position and movement (docs/decisions/0005-shapes-and-costs.md)";

    private static string Cost(double value) => value.ToString("0.00", CultureInfo.InvariantCulture);

    private static string Names(ShapeChange change) => $"{ChordSpeech.Of(change.From.Chord)} to {ChordSpeech.Of(change.To.Chord)}";

    private static string StringName(int index, Song song)
    {
        var number = song.Tuning.Value.Count - index;
        return number == 1 ? "top string" : index == 0 ? "lowest string" : $"{NumberWords.Ordinal(number)} string";
    }
}
