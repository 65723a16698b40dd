using Harkbook.Audio.Synthesis.Voices;
using Harkbook.Music.Songs;
using Harkbook.Sounding;
using Harkbook.Units;

namespace Harkbook.Demo;

/// <summary>A note as it is about to be sung.</summary>
internal readonly record struct SungNote(int Midi, Seconds At, Seconds Until, double Strength, Vowel Vowel);

/// <summary>Sings the song's tune where a voice has it, each note to the vowel of its syllable.</summary>
internal sealed class DemoVoice(Song song, IBarTimes times, Touch touch)
{
    /// <summary>Longest a note is held before the singer breathes.</summary>
    private const double LongestSeconds = 2.2;

    private readonly TuneVowels vowels = new();

    public List<SungNote> Sing() =>
        [.. song.Sections.Where(s => song.TunePlayerIn(s) == TunePlayer.Voice).SelectMany(s => s.Bars).SelectMany(bar => bar.Tune.Select(n => Note(bar, n)))];

    private SungNote Note(Bar bar, Claim<TuneNote> note)
    {
        var start = touch.Around(times.At(bar.Number, note.Start));
        var end = times.At(bar.Number, note.Start + note.Length);
        var until = Math.Min(end.Value - 0.03, start.Value + LongestSeconds);
        return new(note.Value.Pitch.Midi, start, Seconds.FromSeconds(Math.Max(until, start.Value + 0.06)), touch.Strength(0.62), vowels.Of(bar, note));
    }
}
