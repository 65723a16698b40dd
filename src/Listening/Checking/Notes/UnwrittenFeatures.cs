using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>
/// What speaks for nothing more starting where a note is heard that isn't written. Where much is heard that isn't written (a voice, drums, overtones),
/// one more says little.
/// </summary>
/// <param name="unwritten">All that is heard and isn't written where parts claim to be complete.</param>
/// <param name="minutes">How long these stretches are together.</param>
internal sealed class UnwrittenFeatures(HeardStarts starts, WrittenNotes written, IReadOnlyList<HeardNote> unwritten, double minutes)
{
    /// <summary>A heard start that near a written one of its pitch is the same, in seconds.</summary>
    public const double Same = 0.12;

    private const double After = 0.2, Gap = 0.03, Before = 0.12, Long = 0.4, Together = 0.06;

    /// <summary>Over how many semitones notes are e times less alike, and how much less sure one may be that counts as sure as another.</summary>
    private const double AlikePitch = 4, AsSure = 0.05;

    /// <summary>E3 and E5: between them most is heard right.</summary>
    private const int Low = 52, High = 76;

    public Feature[] Of(HeardNote note)
    {
        var (midi, at) = (note.Midi, note.Onset.Value);
        var after = starts.Sounds(midi, at + Gap, at + After);
        return
        [
            new("start", LogOdds.Of(note.Confidence, 0.0025)),
            new("after", after),
            new("rise", after - starts.Sounds(midi, at - Before, at - Gap)),
            new("length", Math.Min(Long, (note.End - note.Onset).Value) / Long),
            new("slack", Math.Exp(-Math.Max(0, written.Nearest(midi, at) - Same) / 0.06)),
            new("others", Math.Log(0.5 + Others(note) / minutes)),
            new("together", Math.Log(1 + written.Count(at, Together))),
            new("low", Math.Max(0, Low - midi) / 12.0),
            new("high", Math.Max(0, midi - High) / 12.0),
            new("beside", IsBeside(midi, at) ? 1 : 0),
        ];
    }

    /// <summary>How many others are heard as surely near its pitch, those further off counting less.</summary>
    private double Others(HeardNote note)
    {
        var sum = 0.0;
        foreach (var other in unwritten)
            sum += other != note && other.Confidence >= note.Confidence - AsSure ? Math.Exp(-Math.Abs(other.Midi - note.Midi) / AlikePitch) : 0;
        return sum;
    }

    /// <summary>Whether a semitone or a tone from it a written note sounds then.</summary>
    private bool IsBeside(int midi, double at)
    {
        var (first, last) = (written.Between(at - 60, at + Together).Start.Value, written.Between(at - 60, at + Together).End.Value);
        for (var i = first; i < last; i++)
        {
            if (written.Notes[i].End > at + Gap && Math.Abs(written.Notes[i].Midi - midi) is 1 or 2)
                return true;
        }
        return false;
    }
}
