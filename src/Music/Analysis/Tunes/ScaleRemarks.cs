using System.Globalization;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Tunes;

/// <summary>Which scale a tune keeps to, in each key that it is in, and its blue notes.</summary>
internal static class ScaleRemarks
{
    private const string Method = "the smallest pentatonic, blues or seven-note scale on the key's tonic that holds the notes (scales as in Open Music Theory)";

    public static IEnumerable<Remark> Of(Song song, PlayedTune tune) =>
        tune.Notes.GroupBy(n => n.Key).SelectMany(g => new[] { ScaleOf(song, tune, g.Key, [.. g]), Blue(tune, g.Key, [.. g]) }).OfType<Remark>();

    private static Remark? ScaleOf(Song song, PlayedTune tune, Key key, List<PlacedTuneNote> notes)
    {
        var facts = notes.GroupBy(n => n.Pitch.Name).OrderBy(g => Floor.Mod(g.Key.PitchClass - key.Tonic.PitchClass, 12))
            .Select(g => new RemarkFact(g.Key.ToString(), $"{key.DegreeOf(g.Key).DegreeName} of {key}, {NumberWords.Of(g.Count(), "note")}", Method));
        if (TuneScale.Of(notes, key) is not { } found)
            return Others(tune, key, notes, [.. facts]);
        var names = NumberWords.List([.. found.Scale.On(key.Tonic).Select(ChordSpeech.Of)]);
        var outside = found.Outside.Select(n => ChordSpeech.Of(n.Pitch.Name)).Distinct().ToArray();
        var but = outside.Length == 0 ? "" : $"; {NumberWords.List(outside)} {(outside.Length == 1 ? "lies" : "lie")} outside it";
        return new(RemarkKind.TuneScale,
            $"{tune.Who} keeps to the {ChordSpeech.Of(key.Tonic)} {found.Scale} scale, {names}{Without(found.Scale, key, notes)}"
                + $"{Over(song, key, found.Scale)}{but}.",
            [.. facts]) { Places = [.. found.Outside.Select(n => n.Place)] };
    }

    /// <summary>", though it never has C sharp".</summary>
    private static string Without(Scale scale, Key key, List<PlacedTuneNote> notes)
    {
        var missing = scale.On(key.Tonic).Where(n => notes.All(t => t.Pitch.Name.PitchClass != n.PitchClass)).Select(ChordSpeech.Of).ToArray();
        return missing.Length == 0 ? "" : $", though it never has {string.Join(" or ", missing)}";
    }

    /// <summary>Notes that no scale holds, beside the key's; nothing for a handful of notes.</summary>
    private static Remark? Others(PlayedTune tune, Key key, List<PlacedTuneNote> notes, RemarkFact[] facts)
    {
        var beyond = notes.Where(n => !key.Notes.Any(k => k.PitchClass == n.Pitch.Name.PitchClass)).ToArray();
        if (beyond.Length == 0)
            return null;
        var names = beyond.Select(n => n.Pitch.Name).Distinct().Select(ChordSpeech.Of).ToArray();
        return new(RemarkKind.TuneScale,
            $"{tune.Who} keeps to no one scale: beside the notes of {ChordSpeech.Of(key.Tonic)} {key.Mode} it has {NumberWords.List(names)}.", [.. facts])
        {
            Places = [.. beyond.Select(n => n.Place)],
        };
    }

    /// <summary>A minor third in the tune over a major home chord is worth saying.</summary>
    private static string Over(Song song, Key key, Scale scale)
    {
        var isMinor = scale.Intervals.Any(i => i.Semitones == 3) && scale.Intervals.All(i => i.Semitones != 4);
        var homes = song.Bars.Where(b => song.KeyAt(b.Number) == key).SelectMany(b => b.Chords).Select(c => c.Value.Chord)
            .Where(c => !c.IsNone && c.Root.PitchClass == key.Tonic.PitchClass).ToArray();
        return isMinor && homes.Any(c => ChordTraits.HasMajorThird(c.Quality)) ? ", over a major home chord, as blues and rock do" : "";
    }

    /// <summary>The lowered third, fifth and seventh in a major key where they aren't the chord's, and quarter tones about them.</summary>
    private static Remark? Blue(PlayedTune tune, Key key, List<PlacedTuneNote> notes)
    {
        var blue = notes.Where(n => IsBlue(n, key)).ToArray();
        if (blue.Length == 0)
            return null;
        var words = blue.GroupBy(n => n.Pitch.Name).OrderBy(g => Above(g.Key, key))
            .Select(g => $"{ChordSpeech.Of(g.Key)}, the {ChordSpeech.Degree(key.DegreeOf(g.Key))}, {NumberWords.Times(g.Count())}");
        var quarters = blue.Count(n => IsQuarter(n.Claim.Value));
        var between = quarters == 0 ? "" : $", {(quarters == blue.Length ? "each" : NumberWords.Of(quarters))} bent a quarter tone up";
        return new(RemarkKind.TuneBlueNotes, $"{tune.Who} has blue notes: {string.Join("; ", words)}{between}.",
            [.. blue.Select(n => new RemarkFact("blue note", string.Create(CultureInfo.InvariantCulture,
                $"bar {n.Bar.Number}: {n.Claim.Value} over {n.Chord?.ToString() ?? "no chord"}"),
                "thirds, fifths and sevenths lowered against a major key and foreign to their chord (blues scale, Open Music Theory)"))])
        {
            Places = [.. blue.Select(n => n.Place)],
        };
    }

    private static bool IsBlue(PlacedTuneNote note, Key key) =>
        !key.Mode.IsMinor && (!note.IsChordTone || IsQuarter(note.Claim.Value)) && Above(note.Pitch.Name, key) is 3 or 6 or 10
        && key.Mode.Intervals.All(i => i.Semitones != Above(note.Pitch.Name, key)) && note.Chord is { IsNone: false };

    private static bool IsQuarter(TuneNote note) => Math.Round(note.Bend.By.Value) == 50;

    private static int Above(PitchName name, Key key) => Floor.Mod(name.PitchClass - key.Tonic.PitchClass, 12);
}
