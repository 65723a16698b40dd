using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>What speaks for nothing more starting where a note is heard that isn't written.</summary>
internal sealed class UnwrittenFeatures(HeardStarts starts, WrittenNotes written, Hearing hearing)
{
    /// <summary>A heard start that near a written one of its pitch is the same, in seconds.</summary>
    public const double Same = 0.09;

    private const double After = 0.2, Gap = 0.03, Before = 0.12, Long = 0.4;

    /// <summary>Heard notes that nothing written explains by its pitch and time.</summary>
    public IEnumerable<HeardNote> Unwritten(double from, double to) =>
        hearing.Notes.Where(n => n.Onset.Value >= from && n.Onset.Value < to && !written.Has(n.Midi, n.Onset.Value, Same));

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
            new("masked", Overtones.Semitones.Max(o => Written(at, midi, o))),
            new("below", Math.Max(Written(at, midi, -12), Written(at, midi, -19))),
            new("slack", Math.Exp(-Math.Max(0, written.Nearest(midi, at) - Same) / 0.06)),
        ];
    }

    /// <summary>How surely a written note starts then, so many semitones below.</summary>
    private double Written(double at, int midi, int below) =>
        written.Has(midi - below, at, Same) ? LogOdds.Chance(starts.At(midi - below, at)) : 0;
}
