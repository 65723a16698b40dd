using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>How strongly each pitch sounds over a span: the mean of the evidence in the pitch's strongest half of the span.</summary>
public static class PitchStrengths
{
    /// <returns>MIDI number → strength 0–1, for pitches that sound at all.</returns>
    public static ImmutableDictionary<int, double> Over(NotePosteriorgram evidence, Seconds start, Seconds end)
    {
        var (first, last) = (evidence.FrameAt(start), evidence.FrameAt(end));
        var strengths = ImmutableDictionary.CreateBuilder<int, double>();
        var column = new float[Math.Max(1, last - first + 1)];
        for (var pitch = 0; pitch < evidence.Pitches && evidence.Frames > 0; pitch++)
        {
            for (var f = first; f <= last; f++)
                column[f - first] = evidence.Sounding[f, pitch];
            Array.Sort(column);
            var strongest = column.AsSpan(column.Length / 2);
            var sum = 0.0;
            foreach (var value in strongest)
                sum += value;
            if (sum / strongest.Length > 0.02)
                strengths[evidence.LowestMidi + pitch] = sum / strongest.Length;
        }
        return strengths.ToImmutable();
    }
}
