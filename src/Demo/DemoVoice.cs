using Harkbook.Audio.Synthesis.Voices;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Sounding;
using Harkbook.Units;

namespace Harkbook.Demo;

/// <summary>A syllable as it is about to be sung.</summary>
internal readonly record struct SungNote(int Midi, Seconds At, Seconds Until, double Strength, Vowel Vowel);

/// <summary>Sings a song's syllables to the performance's tune.</summary>
internal sealed class DemoVoice(Song song, DemoPerformance performance, IBarTimes times, Touch touch)
{
    /// <summary>Longest a syllable is held before the singer breathes.</summary>
    private const double LongestSeconds = 2.2;

    public List<SungNote> Sing() =>
        [.. song.Sections.SelectMany(s => s.Bars.SelectMany((bar, i) => SingBar(s.Name, i + 1, bar)))];

    private IEnumerable<SungNote> SingBar(string section, int barInSection, Bar bar)
    {
        var tune = performance.TuneOf(section, barInSection);
        if (tune.IsEmpty)
            yield break;
        if (tune.Length != bar.Sung.Length)
            throw new FormatException(
                $"The tune of {section}, bar {barInSection}, has {tune.Length} pitches for {bar.Sung.Length} syllables; give one for each.");
        for (var i = 0; i < tune.Length; i++)
            yield return Note(bar, bar.Sung[i], tune[i]);
    }

    private SungNote Note(Bar bar, Claim<string> syllable, Pitch pitch)
    {
        var start = touch.Around(times.At(bar.Number, syllable.Start));
        var end = times.At(bar.Number, syllable.Start + syllable.Length);
        var until = Math.Min(end.Value - 0.03, start.Value + LongestSeconds);
        return new(pitch.Midi, start, Seconds.FromSeconds(Math.Max(until, start.Value + 0.06)), touch.Strength(0.62), VowelOf(syllable.Value));
    }

    /// <summary>Roughly the vowel that a syllable is spelled with; the demo's voice has no words.</summary>
    private static Vowel VowelOf(string syllable)
    {
        var name = syllable.ToLowerInvariant().FirstOrDefault(c => "aeiouy".Contains(c)) switch
        {
            'a' => "had",
            'e' => "head",
            'i' or 'y' => "hid",
            'o' => "hawed",
            'u' => "hud",
            _ => "heard",
        };
        return Vowel.All.Single(v => v.Name == name);
    }
}
