using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Joins cells of one pitch into stretches: from where a line surely sounds, or was heard to start, as long as it may sound; cut
/// where another start is heard. A pitch that sways past the semitone's edge is waited for.
/// </summary>
internal sealed class LineTracer(LineCells cells)
{
    private const float Begins = 0.5f, Holds = 0.3f, Starts = 0.35f;
    private const int LongestGap = 3, LongestSway = 10, EarlyStart = 15, LateStart = 4, ShortestBetweenStarts = 5, Shortest = 5,
        ShortestUnstarted = 10, Peak = 3;

    private readonly List<LineStretch> done = [];

    /// <summary>By first frame, then pitch.</summary>
    public List<LineStretch> Trace()
    {
        for (var pitch = 0; pitch < LineNetwork.Pitches; pitch++)
            Follow(pitch);
        return [.. done.Where(IsLongEnough).Where(s => s.HasOnset || !done.Any(o => IsSwayOrScoop(s, o))).OrderBy(s => s.First).ThenBy(s => s.Midi)];
    }

    private void Follow(int pitch)
    {
        var end = 0;
        for (var f = 0; f < cells.Frames; f++)
        {
            if (f < end || At(f, pitch)?.Chance is not >= Begins)
                continue;
            var start = StartNear(f, pitch, end);
            end = Hold(start ?? Earlier(f, pitch, end), pitch, hasOnset: start is not null, atLeast: f + 1);
        }
    }

    /// <summary>Makes the stretch that starts at a frame; the frame after its last.</summary>
    private int Hold(int first, int pitch, bool hasOnset, int atLeast)
    {
        var (f, last) = (first + 1, first);
        for (; f < cells.Frames; f++)
        {
            if (f - first >= ShortestBetweenStarts && f >= atLeast && IsStart(f, pitch))
                break;
            if (At(f, pitch)?.Chance is >= Holds || f < atLeast)
                last = f;
            else if (f - last > (Sways(f, pitch) ? LongestSway : LongestGap))
                break;
        }
        if (f < cells.Frames && IsStart(f, pitch) && f - last <= LongestGap + 1)
            last = f - 1;
        done.Add(new(LineNetwork.LowestMidi + pitch, first, [.. Enumerable.Range(first, last + 1 - first).Select(g => At(g, pitch))], hasOnset));
        return last + 1;
    }

    private int? StartNear(int frame, int pitch, int notBefore)
    {
        for (var f = Math.Min(cells.Frames - 1, frame + LateStart); f >= Math.Max(notBefore, frame - EarlyStart); f--)
        {
            if (IsStart(f, pitch))
                return f;
        }
        return null;
    }

    private int Earlier(int frame, int pitch, int notBefore)
    {
        while (frame > notBefore && At(frame - 1, pitch)?.Chance is >= Holds)
            frame--;
        return frame;
    }

    private bool IsStart(int frame, int pitch)
    {
        if (At(frame, pitch)?.Onset is not { } most || most < Starts)
            return false;
        for (var f = Math.Max(0, frame - Peak); f <= Math.Min(cells.Frames - 1, frame + Peak); f++)
        {
            if (At(f, pitch)?.Onset is { } other && (other > most || (other == most && f < frame)))
                return false;
        }
        return true;
    }

    private bool Sways(int frame, int pitch) => At(frame, pitch - 1) is { Chance: >= Holds, Off: > 0 }
        || At(frame, pitch + 1) is { Chance: >= Holds, Off: < 0 };

    private LineCell? At(int frame, int pitch) => cells.Find(frame, pitch);

    private static bool IsLongEnough(LineStretch s) => s.Length >= (s.HasOnset ? Shortest : ShortestUnstarted);

    /// <summary>Part of another note on its way: beside it, through its time, no longer.</summary>
    private static bool IsSwayOrScoop(LineStretch s, LineStretch of) =>
        s != of && Math.Abs(s.Midi - of.Midi) is 1 or 2 && s.Length < of.Length && s.Overlap(of) > 0.4 * s.Length;
}
