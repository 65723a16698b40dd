using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Tunes;

/// <summary>What is worth saying about a song's tune: its scale, its strong beats, how far it goes, and who answers it.</summary>
public static class TuneRemarks
{
    private const string Strong = "the first beat of each bar, and the middle one of a bar of four, six or more beats; degrees above the chord's root";

    public static IEnumerable<Remark> Of(Song song) => PlayedTune.In(song).SelectMany(tune =>
        new[] { RangeOf(song, tune), OnStrongBeats(tune), Bent(tune) }.OfType<Remark>()
            .Concat(ScaleRemarks.Of(song, tune)).Concat(AnswerRemarks.Of(song, tune)));

    private static Remark RangeOf(Song song, PlayedTune tune)
    {
        var (low, high) = (tune.Notes.MinBy(n => n.Pitch.Midi)!.Pitch, tune.Notes.MaxBy(n => n.Pitch.Midi)!.Pitch);
        var (lowest, highest) = (Sounding(song, low), Sounding(song, high));
        VoicePart[] choir = tune.Player == TunePlayer.Voice ? [.. VoicePart.All] : [];
        var parts = choir.Where(p => p.Holds(lowest, highest)).Select(p => $"{Article(p.Name)} {p.Name}").ToArray();
        var suits = tune.Player != TunePlayer.Voice ? "" : parts.Length == 0 ? "; no one part of a choir is written for all of that"
            : $", which {string.Join(parts.Length == 2 ? " or " : ", ", parts)} has";
        return new(RemarkKind.TuneRange, $"{tune.Who} goes from {Spoken(low)} to {Spoken(high)}{suits}.",
            [
                new("span", $"{NumberWords.Of(high.Midi - low.Midi, "semitone")}, {low} to {high}", "the tune's lowest and highest notes"),
                .. choir.Select(p => new RemarkFact(p.Name, $"{p.Lowest} to {p.Highest}", "data/voices.tsv, common practice of part-writing")),
            ])
        {
            Places = [.. tune.Notes.Where(n => n.Pitch == low || n.Pitch == high).Select(n => n.Place)],
        };
    }

    /// <summary>As a MIDI number about A440: a recording at another pitch, or the hand's names, sound elsewhere.</summary>
    private static double Sounding(Song song, Pitch pitch) => pitch.Midi + Cents.Between(Hertz.A440, song.ReferencePitch.Value).Value / 100;

    /// <summary>"F sharp in the fourth octave" is nobody's speech; players say "F sharp four".</summary>
    private static string Spoken(Pitch pitch) => $"{ChordSpeech.Of(pitch.Name)} {pitch.Octave.ToString(CultureInfo.InvariantCulture)}";

    private static string Article(string name) => "aeiou".Contains(name[0], StringComparison.Ordinal) ? "an" : "a";

    private static Remark? OnStrongBeats(PlayedTune tune)
    {
        var strong = tune.Notes.Where(n => IsStrong(n) && n.Chord is { IsNone: false }).ToArray();
        if (strong.Length == 0)
            return null;
        var (held, others) = (strong.Where(n => n.IsChordTone).ToArray(), strong.Where(n => !n.IsChordTone).ToArray());
        var most = held.GroupBy(Degree).MaxBy(g => g.Count());
        var chord = held.Length == 0 ? "never a note of the chord"
            : $"a note of the chord {(others.Length == 0 ? "every time" : $"{NumberWords.Times(held.Length)} of {NumberWords.Of(strong.Length)}")}"
                + $", {(most!.Count() == held.Length ? "always" : "mostly")} its {most!.Key}";
        var tensions = others.Length == 0 ? "" : $"; the others are {NumberWords.List([.. others.GroupBy(n => $"the {Degree(n)} of {ChordSpeech.Of(n.Chord!)}")
            .Select(g => g.Key)])}";
        return new(RemarkKind.TuneStrongBeats, $"On strong beats {tune.Who.ToLowerInvariant()} has {chord}{tensions}.",
            [.. strong.GroupBy(n => (Degree(n), n.IsChordTone)).OrderByDescending(g => g.Count())
                .Select(g => new RemarkFact(g.Key.Item1, $"{NumberWords.Of(g.Count(), "note")}, {(g.Key.IsChordTone ? "of the chord" : "added to it")}",
                    Strong))])
        {
            Places = [.. others.Select(n => n.Place)],
        };
    }

    private static string Degree(PlacedTuneNote note) => ChordSpeech.Degree(Layers.UpperStructure.Degree(note.Chord!, note.Pitch.Name.PitchClass));

    private static bool IsStrong(PlacedTuneNote note) => note.Claim.Start == Beats.Zero
        || (note.Bar.Meter.BeatsPerBar >= 4 && note.Bar.Meter.BeatsPerBar % 2 == 0 && note.Claim.Start == Beats.Whole(note.Bar.Meter.BeatsPerBar / 2));

    private static Remark? Bent(PlayedTune tune)
    {
        var moved = tune.Notes.Where(n => !n.Claim.Value.Bend.IsNone || n.Claim.Value.Approach != Approach.Straight || n.Claim.Value.SlideOff != SlideOff.None)
            .ToArray();
        if (moved.Length == 0)
            return null;
        string[] words = [.. new[]
        {
            Counted(moved.Count(n => !n.Claim.Value.Bend.IsNone), "bent", "bent"),
            Counted(moved.Count(n => n.Claim.Value.Approach == Approach.FromBelow), "scooped up to", "scooped up to"),
            Counted(moved.Count(n => n.Claim.Value.Approach == Approach.FromAbove), "dropped onto", "dropped onto"),
            Counted(moved.Count(n => n.Claim.Value.Approach == Approach.FromNoteBefore), "glided to", "glided to"),
            Counted(moved.Count(n => n.Claim.Value.SlideOff != SlideOff.None), "left by a glide", "left by a glide"),
        }.Where(w => w.Length > 0)];
        return new(RemarkKind.TuneBends, $"Of its {NumberWords.Of(tune.Notes.Length, "note")}, {tune.Who.ToLowerInvariant()} has {NumberWords.List(words)}.",
            [.. moved.Select(n => new RemarkFact("note", $"bar {n.Bar.Number}: {n.Claim.Value}", "signs of the song file's tune"))])
        {
            Places = [.. moved.Select(n => n.Place)],
        };
    }

    private static string Counted(int count, string one, string many) => count == 0 ? "" : $"{NumberWords.Of(count)} {(count == 1 ? one : many)}";
}
