using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Proposing;

/// <summary>How strongly each pitch sounded while a chord did, over all its spans in the song; the strongest counts 1.</summary>
internal sealed class HeardStrength
{
    private readonly double[] strength = new double[128];

    private HeardStrength(NotePosteriorgram evidence, IEnumerable<HeardChord> spans)
    {
        var frames = 0;
        foreach (var span in spans.Where(_ => evidence.Frames > 0))
        {
            for (var frame = evidence.FrameAt(span.Start); frame <= evidence.FrameAt(span.End); frame++, frames++)
                Add(evidence, frame);
        }
        var most = strength.Max();
        for (var midi = 0; midi < 128 && most > 0; midi++)
            strength[midi] /= most;
    }

    public static Dictionary<Chord, HeardStrength> OfChords(Hearing hearing) =>
        hearing.Chords.Where(c => !c.Chord.Best.IsNone).GroupBy(c => c.Chord.Best).ToDictionary(g => g.Key, g => new HeardStrength(hearing.Evidence.Notes, g));

    /// <summary>How well a shape's pitches explain what was heard, 0 to 1. An even strength everywhere says nothing, and neither does silence.</summary>
    public double Match(ImmutableArray<Pitch> shape) => PitchFit.Of(strength, shape.Select(p => p.Midi).ToHashSet());

    private void Add(NotePosteriorgram evidence, int frame)
    {
        for (var p = 0; p < evidence.Pitches; p++)
        {
            var midi = evidence.LowestMidi + p;
            if (midi is >= 0 and < 128)
                strength[midi] += evidence.Sounding[frame, p];
        }
    }
}
