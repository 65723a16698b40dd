using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>What is worth saying about a melody over its chords: the harmonica's highest notes, the highest picked voice, and the tune.</summary>
public static class MelodyRemarks
{
    private const string Method = "embellishing tones as Open Music Theory tells them; a rest of more than a beat parts phrases";

    public static IEnumerable<Remark> Of(Song song) => Of(song, Layer.Harmonica, "The harmonica").Concat(Of(song, Layer.Picked, "The highest picked voice"))
        .Concat(Of(song, Layer.Tune, "The tune"));

    private static IEnumerable<Remark> Of(Song song, Layer layer, string who)
    {
        var tones = MelodyTone.Of(MelodyLine.Of(song, layer));
        var others = tones.Where(t => t.Kind != ToneKind.ChordTone).ToArray();
        if (others.Length == 0)
            yield break;
        yield return Summary(song, tones, others, who);
        foreach (var group in others.Where(t => t.IsLeaning).GroupBy(t => (t.Note.Chord, t.Note.Degree, t.Kind)))
            yield return Leaning(song, [.. group], who);
    }

    private static Remark Summary(Song song, ImmutableArray<MelodyTone> tones, MelodyTone[] others, string who)
    {
        var kinds = others.GroupBy(t => t.Kind).OrderBy(g => g.Key).Select(g => Counted(g.Key, g.Count())).ToArray();
        return new(RemarkKind.MelodyTones,
            $"{who} stays on notes of the chord with {NumberWords.Of(tones.Length - others.Length)} of its {NumberWords.Of(tones.Length, "note")}; of the "
                + $"others {NumberWords.List(kinds)}.",
            [.. others.GroupBy(t => t.Kind).OrderBy(g => g.Key)
                .Select(g => new RemarkFact(Name(g.Key), string.Join("; ", g.Select(t => Detail(song, t))), Method))])
        {
            Places = [.. others.Select(t => t.Note.Place)],
        };
    }

    private static Remark Leaning(Song song, MelodyTone[] tones, string who)
    {
        var first = tones[0].Note;
        return new(RemarkKind.MelodyLeans,
            $"{who} leans on the {ChordSpeech.Degree(first.Degree)} of {ChordSpeech.Of(first.Chord)}, "
                + $"{ChordSpeech.Of(first.Note.Pitch.Name)}{Against(first)}{How(tones[0].Kind)}.",
            [.. tones.Select(t => new RemarkFact(Name(t.Kind), Detail(song, t), Method))])
        {
            Places = [.. tones.Select(t => t.Note.Place)],
        };
    }

    /// <summary>", a step above its fifth": the chord's note next to it, the one below first.</summary>
    private static string Against(MelodyNote note)
    {
        foreach (var (semitones, words) in new[] { (-2, "a step above"), (-1, "a half step above"), (1, "a half step below"), (2, "a step below") })
        {
            var beside = Floor.Mod(note.Midi + semitones, 12);
            var held = note.Chord.Quality.Intervals.Where(i => (note.Chord.Root + i).PitchClass == beside).ToArray();
            if (held.Length > 0)
                return $", {words} its {ChordSpeech.Degree(held[0])}";
        }
        return "";
    }

    private static string How(ToneKind kind) => kind switch
    {
        ToneKind.Suspension => "; it is held from the chord before and steps down",
        ToneKind.Retardation => "; it is held from the chord before and steps up",
        ToneKind.Appoggiatura => "; it comes without a step and goes on by one",
        ToneKind.Pedal => "; it stays while the chords change under it",
        ToneKind.Anticipation => "; it belongs to the chord that comes next",
        ToneKind.Free => "; it stands against the chord",
        _ => "",
    };

    private static string Detail(Song song, MelodyTone tone) =>
        $"bar {tone.Note.Place.Bar} beat {BarPlace.Of(song.Bars.ElementAt(tone.Note.Place.Bar - 1).Meter, tone.Note.Place.Start).Named(song.Counting)}: "
            + $"{tone.Note.Note.Pitch} ({tone.Note.Note.Played}) is {tone.Note.Degree.DegreeName} of {ChordSymbol.Write(tone.Note.Chord)}";

    private static string Counted(ToneKind kind, int count) => kind switch
    {
        ToneKind.Passing => $"{NumberWords.Of(count)} {(count == 1 ? "passes" : "pass")} by step",
        ToneKind.Tension => $"{NumberWords.Of(count)} {(count == 1 ? "colours" : "colour")} the chord",
        ToneKind.Free => $"{NumberWords.Of(count)} {(count == 1 ? "stands" : "stand")} against it",
        _ => $"{NumberWords.Of(count)} {(count == 1 ? "is" : "are")} {NumberOf(Name(kind), count)}",
    };

    private static string NumberOf(string name, int count) =>
        count > 1 ? name + "s" : ("aeiou".Contains(name[0], StringComparison.Ordinal) ? "an " : "a ") + name;

    private static string Name(ToneKind kind) => kind switch
    {
        ToneKind.Passing => "passing tone",
        ToneKind.Neighbour => "neighbour tone",
        ToneKind.Suspension => "suspension",
        ToneKind.Retardation => "retardation",
        ToneKind.Appoggiatura => "appoggiatura",
        ToneKind.Escape => "escape tone",
        ToneKind.Anticipation => "anticipation",
        ToneKind.Pedal => "pedal tone",
        ToneKind.Tension => "tension",
        ToneKind.Free => "free tone",
        _ => "chord tone",
    };
}
