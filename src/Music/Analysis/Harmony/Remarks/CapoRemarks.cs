using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Remarks;

/// <summary>Under a capo, what the hand plays beside what sounds: said once, since all else goes by the names that the song's file writes.</summary>
internal static class CapoRemarks
{
    public static IEnumerable<Remark> Of(Song song)
    {
        var used = song.Bars.SelectMany(b => b.Chords).Select(c => c.Value.Chord).Where(c => !c.IsNone).Distinct().ToArray();
        if (CapoNames.Of(song) is not { } names || used.Length == 0)
            yield break;
        var (sounding, capo) = (song.Key.Value, song.Capo.Value.Fret);
        var hand = names.Hand(sounding);
        var chords = used.Select(c => $"{c.Transposed(-names.Raise)} sounds {c}");
        yield return new(RemarkKind.NamesUnderCapo,
            $"The capo is on fret {capo}: play {Home(hand)}, and it sounds {Home(sounding)}. The hand plays in {NumeralSpeech.Of(hand)} and the song sounds in "
                + $"{NumeralSpeech.Of(sounding)}; "
                + (names.HandFirst
                    ? "what follows has the hand's names, as the song's file does, but for harmonica and tuning."
                    : "all that follows is named by what sounds."),
            [new("names", string.Join(", ", chords), $"each name of the hand lies {capo} {(capo == 1 ? "semitone" : "semitones")} below the one that sounds")]);
    }

    private static string Home(Key key) => ChordSpeech.Of(Chord.Of(key.Tonic, key.Mode.IsMinor ? ChordQuality.Minor : ChordQuality.Major));
}
