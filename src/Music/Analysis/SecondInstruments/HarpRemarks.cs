using System.Globalization;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.SecondInstruments;

/// <summary>What is worth saying about which harmonica a song is played on, and what it asks of the player.</summary>
public static class HarpRemarks
{
    private const string Layout = "data/harps.tsv, with the bends that its reeds allow (common practice)";
    private const string Effort = "our own weights: a plain note 0, a bend 0.3 and more, an over-bend 1.2, a note that isn't there 3";

    public static IEnumerable<Remark> Of(Song song)
    {
        if (HarpPlayed.In(song) is not { } played)
            return [];
        return new[] { Position(played), OneBreath(played), Bends(played), Choice(played) }.OfType<Remark>().Concat(BreathRemarks.Of(song));
    }

    /// <summary>Positions are a matter of diatonic harmonicas; a chromatic one is played in any key.</summary>
    private static Remark? Position(HarpPlayed played)
    {
        if (played.Harp.Layout.HasSlide)
            return null;
        var (key, harp) = (played.Song.Key.Value, played.Harp);
        var position = harp.PositionFor(key.Tonic);
        var name = position switch { 1 => ", which players call straight harp", 2 => ", which players call cross harp", _ => "" };
        return new(RemarkKind.HarpPosition,
            $"The harmonica is in {ChordSpeech.Of(harp.Key)} and the song in {ChordSpeech.Of(key.Tonic)}: {NumberWords.Ordinal(position)} position{name}.",
            [new("position", $"{position}, {key.Tonic} on a harmonica in {harp.Name}",
                "fifths from the harmonica's key to the song's, plus one (position charts, common practice)")])
        {
            Usualness = new(position switch { 1 or 2 => Frequency.Usual, 3 or 12 => Frequency.Uncommon, _ => Frequency.Rare },
                "most playing is in first and second position, some in third and twelfth, little elsewhere (common practice, nobody has counted)"),
        };
    }

    private static Remark? OneBreath(HarpPlayed played)
    {
        var chords = played.Song.Bars.SelectMany(b => b.Chords).Select(c => c.Value.Chord).Where(c => !c.IsNone)
            .Select(c => Chord.Of(c.Root, c.Quality)).Distinct().Where(c => c.Notes.Length == 3)
            .Select(c => (Chord: c, Runs: played.Harp.TogetherFor(c))).ToArray();
        var (there, lacking) = (chords.Where(c => !c.Runs.IsEmpty).ToArray(), chords.Where(c => c.Runs.IsEmpty).ToArray());
        if (there.Length == 0)
            return null;
        var has = NumberWords.List([.. there.Select(c => $"{ChordSpeech.Of(c.Chord)} {(c.Runs[0].Breath == Breath.Blow ? "blown" : "drawn")}")]);
        var not = lacking.Length == 0 ? "" : $"; {NumberWords.List([.. lacking.Select(c => ChordSpeech.Of(c.Chord))])} it has not";
        return new(RemarkKind.HarpChords, $"Of the song's plain chords the harmonica has {has} on one breath{not}.",
            [.. chords.Select(c => new RemarkFact(c.Chord.ToString(), c.Runs.IsEmpty ? "not on neighbouring holes of one breath"
                : string.Join(", ", c.Runs), Layout))]);
    }

    private static Remark? Bends(HarpPlayed played)
    {
        var bent = played.Notes.Where(n => n.Claim.Value.Bend != 0).GroupBy(n => n.Claim.Value).OrderBy(g => g.Key.Hole).ToArray();
        if (bent.Length == 0)
            return null;
        var times = bent.Sum(g => g.Count());
        var what = bent.Select(g =>
            $"{BreathWords.Of(g.Key)} for {Note(g.First().Pitch, played.Song.Key.Value)}{(bent.Length == 1 ? "" : $", {NumberWords.Times(g.Count())}")}");
        return new(RemarkKind.HarpBends,
            $"{NumberWords.Capital(times)} of its {played.Notes.Length} notes {(times == 1 ? "needs" : "need")} bending: {NumberWords.List([.. what])}.",
            [.. bent.Select(g => new RemarkFact(g.Key.ToString(), $"{g.First().Pitch}, {g.Count()} of {played.Notes.Length} notes", Layout))])
        {
            Places = [.. bent.SelectMany(g => g).OrderBy(n => n.Bar).ThenBy(n => n.Claim.Start).Select(HarpPlayed.Place)],
        };
    }

    private static Remark? Choice(HarpPlayed played)
    {
        var (harp, tune) = (played.Harp, played.Tune.ToArray());
        var others = Harmonica.UsualKeys.Where(k => k.PitchClass != harp.Key.PitchClass).Select(k => Harmonica.Of(harp.Layout, k, harp.Octave));
        var (own, best) = (HarpChooser.Rank(tune, [harp])[0], HarpChooser.Rank(tune, others)[0]);
        var sentence = own.Cost <= best.Cost
            ? $"In no other key does the part ask for less: here {Asks(own)}, and on the next best, in {ChordSpeech.Of(best.Harp.Key)}, {Asks(best)}."
            : $"A harmonica in {ChordSpeech.Of(best.Harp.Key)} would ask for less: {Asks(best)}, against {Asks(own)} here.";
        return new(RemarkKind.HarpChoice, sentence, [Fact(own), Fact(best)]);
    }

    private static RemarkFact Fact(HarpFit fit) => new(
        $"effort on {fit.Harp.Name}",
        string.Create(CultureInfo.InvariantCulture, $"{fit.Cost:0.00}: {fit.Plain} plain, {fit.Slid} with the slide, {fit.Bent} bent, {fit.OverBent} "
            + $"over-bent, {fit.Unreachable.Length} pitches not there; the breath turns {NumberWords.Times(fit.BreathChanges)}"),
        Effort);

    private static string Asks(HarpFit fit)
    {
        string[] parts = [.. new[]
        {
            fit.Bent > 0 ? NumberWords.Of(fit.Bent, "bend") : "",
            fit.OverBent > 0 ? NumberWords.Of(fit.OverBent, "over-bend") : "",
            fit.Unreachable.Length > 0 ? $"{NumberWords.Of(fit.Unreachable.Length)} {(fit.Unreachable.Length == 1 ? "pitch" : "pitches")} that it hasn't got"
                : "",
            fit.NotTogether > 0 ? $"{NumberWords.Of(fit.NotTogether)} {(fit.NotTogether == 1 ? "chord" : "chords")} that no one breath gives" : "",
        }.Where(t => t.Length > 0)];
        return parts.Length > 0 ? NumberWords.List(parts) : "no bend at all";
    }

    /// <summary>"F, the flat third".</summary>
    private static string Note(Pitch pitch, Key key)
    {
        var name = key.Spell(pitch.Name.PitchClass);
        return $"{ChordSpeech.Of(name)}, the {ChordSpeech.Degree(key.DegreeOf(name))} of the key";
    }
}
