using Harkbook.Audio.Synthesis.Voices;
using Harkbook.Music.Songs;

namespace Harkbook.Sounding;

/// <summary>Roughly the vowel that a note's syllable is spelled with: our voices have no words. Asked in the order of the song's notes.</summary>
internal sealed class TuneVowels
{
    private Vowel last = Named("hud");

    public Vowel Of(Bar bar, Claim<TuneNote> note) =>
        last = bar.Sung.LastOrDefault(s => s.Start <= note.Start) is { } syllable ? OfSyllable(syllable.Value) : last;

    private static Vowel OfSyllable(string syllable) => Named(syllable.ToLowerInvariant().FirstOrDefault(c => "aeiouy".Contains(c)) switch
    {
        'a' => "had",
        'e' => "head",
        'i' or 'y' => "hid",
        'o' => "hawed",
        'u' => "hud",
        _ => "heard",
    });

    private static Vowel Named(string name) => Vowel.All.Single(v => v.Name == name);
}
