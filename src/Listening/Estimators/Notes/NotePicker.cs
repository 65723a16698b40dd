using System.Collections.Immutable;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>Picks notes from evidence: a peak of the onset chance starts one, a fall of the sounding chance or the next onset ends it.</summary>
public sealed class NotePicker(NotePickOptions? options = null)
{
    private const int PeakReach = 3;
    private const int GapFrames = 3;

    /// <summary>A note is loudest within 60 ms of its onset.</summary>
    private const int AttackFrames = 6;

    private readonly NotePickOptions options = options ?? new();

    /// <summary>Notes by onset, then pitch; each as strong as it is loud soon after its onset.</summary>
    public ImmutableArray<HeardNote> Pick(NotePosteriorgram evidence) =>
        [.. Enumerable.Range(0, evidence.Pitches)
            .SelectMany(p => OfPitch(evidence, p))
            .OrderBy(n => n.Onset).ThenBy(n => n.Midi)];

    private IEnumerable<HeardNote> OfPitch(NotePosteriorgram evidence, int pitch)
    {
        var onsets = Onsets(evidence, pitch);
        for (var i = 0; i < onsets.Count; i++)
        {
            var until = i + 1 < onsets.Count ? onsets[i + 1] : evidence.Frames;
            var end = End(evidence, pitch, onsets[i], until);
            var length = evidence.Hop * (end - onsets[i]);
            if (length < options.ShortestNote)
                continue;
            yield return new(evidence.LowestMidi + pitch, evidence.Hop * Refined(evidence, pitch, onsets[i]), evidence.Hop * end,
                evidence.Onset[onsets[i], pitch], Strength(evidence.Level, onsets[i], pitch));
        }
    }

    private static double Strength(LevelMatrix level, int onset, int pitch)
    {
        var loudest = 0f;
        for (var f = onset; f < Math.Min(level.Frames, onset + AttackFrames); f++)
            loudest = Math.Max(loudest, level[f, pitch]);
        return loudest;
    }

    private List<int> Onsets(NotePosteriorgram evidence, int pitch)
    {
        var apart = options.ClosestOnsets / evidence.Hop;
        var onsets = new List<int>();
        for (var f = 0; f < evidence.Frames; f++)
        {
            if (evidence.Onset[f, pitch] < options.OnsetThreshold || !IsPeak(evidence, f, pitch))
                continue;
            if (onsets.Count == 0 || f - onsets[^1] >= apart)
                onsets.Add(f);
        }
        return onsets;
    }

    private static bool IsPeak(NotePosteriorgram evidence, int frame, int pitch)
    {
        for (var f = Math.Max(0, frame - PeakReach); f <= Math.Min(evidence.Frames - 1, frame + PeakReach); f++)
        {
            if (evidence.Onset[f, pitch] > evidence.Onset[frame, pitch] || (f < frame && evidence.Onset[f, pitch] == evidence.Onset[frame, pitch]))
                return false;
        }
        return true;
    }

    /// <summary>The place between frames where a parabola through the peak stands highest.</summary>
    private static double Refined(NotePosteriorgram evidence, int pitch, int frame)
    {
        if (frame == 0 || frame == evidence.Frames - 1)
            return frame;
        var (a, b, c) = (evidence.Onset[frame - 1, pitch], evidence.Onset[frame, pitch], evidence.Onset[frame + 1, pitch]);
        var curve = a - 2 * b + c;
        return curve < 0 ? frame + Math.Clamp((a - c) / (2 * curve), -0.5, 0.5) : frame;
    }

    private int End(NotePosteriorgram evidence, int pitch, int onset, int until)
    {
        var quiet = 0;
        for (var f = onset + 2; f < until; f++)
        {
            quiet = evidence.Sounding[f, pitch] < options.ReleaseThreshold ? quiet + 1 : 0;
            if (quiet >= GapFrames)
                return f - GapFrames + 1;
        }
        return until - quiet;
    }
}
