namespace Harkbook.Listening.Estimators.Beats;

/// <summary>A beat that the decoder chose.</summary>
internal readonly record struct DecodedBeat(int Frame, int Interval, int Place);

/// <summary>
/// The best row of beats and bars: the bar-pointer model of F. Krebs, S. Böck and G. Widmer, "An efficient state-space model for joint tempo
/// and meter tracking", ISMIR 2015. The interval may change only at a beat, at a cost that grows with the change; between beats nothing can
/// change, so the search steps from beat to beat. The same search run backwards gives, for every frame and interval, the score of the best row
/// that has a beat there at the end of such an interval (the max-marginal): that tells how much the next best answer falls behind.
/// </summary>
internal sealed class BarPointer
{
    private const float Never = -1e9f;

    private readonly PulseScores scores;
    private readonly DecoderOptions options;
    private readonly int intervals;
    private readonly int shortest;
    private readonly int first;
    private readonly int last;
    private readonly int states;
    private readonly float[] best;
    private readonly short[] from;
    private readonly float[][] changes;

    /// <param name="first">The first frame that a beat may fall on.</param>
    /// <param name="last">The last.</param>
    /// <param name="before">One whose work is done, over as many frames or more, and whose room this one takes over; null for none.</param>
    public BarPointer(PulseScores scores, DecoderOptions options, int first, int last, BarPointer? before = null)
    {
        (this.scores, this.options, this.first, this.last) = (scores, options, first, last);
        (intervals, shortest) = (scores.Intervals, scores.Shortest);
        var frames = last - first + 1;
        states = frames * intervals * BarModel.Places;
        (best, from) = before is null ? (new float[states], new short[states]) : (before.best, before.from);
        changes = [.. Enumerable.Range(0, intervals).Select(i => Enumerable.Range(0, intervals).Select(j => Change(i, j)).ToArray())];
    }

    /// <summary>The beats of the best row, in order.</summary>
    public List<DecodedBeat> Decode(CancellationToken cancellation)
    {
        for (var t = first; t <= last; t++)
        {
            if (t % 512 == 0)
                cancellation.ThrowIfCancellationRequested();
            for (var i = 0; i < intervals; i++)
                Reach(t, i);
        }
        return Trace();
    }

    /// <summary>
    /// Call after <see cref="Decode"/>. Shape (frames × intervals), from <see cref="first"/> on: the score of the best row that has a beat on
    /// the frame, reached by the interval.
    /// </summary>
    public float[] Marginals(CancellationToken cancellation)
    {
        var frames = last - first + 1;
        var ahead = new float[(shortest + intervals) * intervals * BarModel.Places];
        var marginals = new float[frames * intervals];
        var onward = new float[intervals * BarModel.Places];
        for (var t = last; t >= first; t--)
        {
            if (t % 512 == 0)
                cancellation.ThrowIfCancellationRequested();
            Leave(t, ahead, onward);
            var here = Slot(t);
            for (var i = 0; i < intervals; i++)
                marginals[(t - first) * intervals + i] = Settle(t, i, ahead.AsSpan(here + i * BarModel.Places, BarModel.Places), onward);
        }
        return marginals;
    }

    private int Slot(int t) => t % (shortest + intervals) * intervals * BarModel.Places;

    private Span<float> At(int t, int i) => best.AsSpan(((t - first) * intervals + i) * BarModel.Places, BarModel.Places);

    /// <summary>Scores of arriving at frame t by interval i, at every place of the bar.</summary>
    private void Reach(int t, int i)
    {
        var here = At(t, i);
        var back = from.AsSpan(((t - first) * intervals + i) * BarModel.Places, BarModel.Places);
        var before = t - (shortest + i);
        Span<float> top = stackalloc float[BarModel.Places];
        Span<int> choice = stackalloc int[BarModel.Places];
        top.Fill(0);
        choice.Fill(-1);
        if (before >= first)
            Arrive(before, i, top, choice);
        var (any, anyPlace) = (Never, -1);
        for (var p = 0; p < BarModel.Places; p++)
        {
            if (top[p] > any)
                (any, anyPlace) = (top[p], p);
        }
        var pace = scores.Tempo(t)[i];
        for (var p = 0; p < BarModel.Places; p++)
        {
            var previous = BarModel.Before(p);
            var cut = BarModel.IsDownbeat(p) && any - (float)options.IrregularBar > top[previous];
            var source = cut ? anyPlace : previous;
            here[p] = (cut ? any - (float)options.IrregularBar : top[previous]) + scores.Beat(t, p) + pace;
            back[p] = choice[source] < 0 ? (short)-1 : (short)(choice[source] * BarModel.Places + source);
        }
    }

    /// <summary>For every place, the best row that has a beat there at a frame and goes on by interval i; a row may also start with the next beat.</summary>
    private void Arrive(int before, int i, Span<float> top, Span<int> choice)
    {
        var (low, high) = Neighbours(i);
        var costs = changes[i];
        for (var j = low; j <= high; j++)
        {
            var row = At(before, j);
            var cost = costs[j];
            for (var p = 0; p < BarModel.Places; p++)
            {
                var score = row[p] - cost;
                if (score > top[p])
                    (top[p], choice[p]) = (score, j);
            }
        }
    }

    /// <summary>For every interval and place at which t can be left: the best that can still be earned.</summary>
    private void Leave(int t, float[] ahead, float[] onward)
    {
        for (var i = 0; i < intervals; i++)
        {
            var next = t + shortest + i;
            var row = onward.AsSpan(i * BarModel.Places, BarModel.Places);
            if (next > last)
            {
                row.Fill(0);
                continue;
            }
            var to = ahead.AsSpan(Slot(next) + i * BarModel.Places, BarModel.Places);
            var restart = Never;
            foreach (var downbeat in BarModel.Downbeats)
                restart = Math.Max(restart, to[downbeat] - (float)options.IrregularBar);
            for (var p = 0; p < BarModel.Places; p++)
                row[p] = Math.Max(0, Math.Max(to[BarModel.After(p)], restart));
        }
    }

    /// <summary>Fills what can be earned from the beat at t on, itself included, and returns the best whole row through it.</summary>
    private float Settle(int t, int i, Span<float> earned, float[] onward)
    {
        var (low, high) = Neighbours(i);
        var past = At(t, i);
        var top = Never;
        var pace = scores.Tempo(t)[i];
        for (var p = 0; p < BarModel.Places; p++)
        {
            var future = 0f;
            for (var j = low; j <= high; j++)
                future = Math.Max(future, onward[j * BarModel.Places + p] - changes[j][i]);
            earned[p] = future + scores.Beat(t, p) + pace;
            top = Math.Max(top, past[p] + future);
        }
        return top;
    }

    private (int Low, int High) Neighbours(int i)
    {
        var reach = 2 + (shortest + i) / 4;
        return (Math.Max(0, i - reach), Math.Min(intervals - 1, i + reach));
    }

    /// <summary>One frame more or less costs little, because intervals are whole numbers of frames and the music's are not.</summary>
    private float Change(int i, int j)
    {
        var apart = Math.Abs(i - j);
        return (float)(0.1 * apart + options.TempoChange * Math.Max(0, apart - 1) / (shortest + Math.Min(i, j)));
    }

    private List<DecodedBeat> Trace()
    {
        var state = 0;
        for (var s = 1; s < states; s++)
        {
            if (best[s] > best[state])
                state = s;
        }
        var beats = new List<DecodedBeat>();
        while (best[state] > 0 || beats.Count > 0)
        {
            var (place, i, t) = (state % BarModel.Places, state / BarModel.Places % intervals, first + state / BarModel.Places / intervals);
            beats.Add(new(t, shortest + i, place));
            if (from[state] < 0)
                break;
            state = ((t - shortest - i - first) * intervals + from[state] / BarModel.Places) * BarModel.Places + from[state] % BarModel.Places;
        }
        beats.Reverse();
        return beats;
    }
}
