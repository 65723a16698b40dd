using System.Numerics.Tensors;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>
/// What speaks for the place in the bar of the beat that a step ends on, beside what the beat network says: how much starts in four regions of the
/// spectrum on the beat and half a beat later, how much sounds there, how much harmony and bass change, and how like the beat is to those
/// two, three, four, six and eight beats away (bars repeat: S. Dixon, F. Gouyon and G. Widmer, "Towards characterisation of music via rhythmic
/// patterns", ISMIR 2004; harmony changes on strong beats: H. Papadopoulos and G. Peeters, "Joint estimation of chords and downbeats from an audio
/// signal", IEEE Trans. Audio, Speech and Language Processing 19, 2011). The beats away are those of the best row that goes through the step (per-survivor
/// processing: R. Raheli, A. Polydoros and C.-K. Tzou, IEEE Trans. Communications 43, 1995).
/// </summary>
internal sealed class StepClues
{
    /// <summary>How many clues a beat has.</summary>
    public const int Count = Accents + 2 * LagCount;

    private const int Regions = StepSound.Regions;
    private const int Accents = 3 * Regions + 8;
    private const int LagCount = 5;
    private const int Farthest = 8;
    private const int Chain = 2 * Farthest + 2;

    private static readonly int[] Lags = [2, 3, 4, 6, 8];

    private readonly PulseEvidence evidence;
    private readonly RowGraph graph;
    private readonly StepSound sound;
    private readonly int[] before;
    private readonly int[] after;
    private readonly float[] accents;

    /// <param name="before">The step before each on the best row through it; −1 for none.</param>
    /// <param name="after">The step after.</param>
    public StepClues(PulseEvidence evidence, RowGraph graph, StepSound sound, int[] before, int[] after)
    {
        (this.evidence, this.graph, this.sound, this.before, this.after) = (evidence, graph, sound, before, after);
        accents = new float[graph.Steps * Accents];
        Parallel.For(0, graph.Steps, s => Accent(s, accents.AsSpan(s * Accents, Accents)));
    }

    /// <summary>Fills a step's clues.</summary>
    public void Fill(int step, Span<float> into)
    {
        Span<int> chain = stackalloc int[Chain];
        Follow(step, chain);
        var own = accents.AsSpan(step * Accents, Accents);
        own.CopyTo(into);
        // Accents count by how they stand out among so many beats on either side.
        Span<float> mean = stackalloc float[Accents - 2];
        var count = 0;
        for (var k = 0; k <= 2 * Farthest; k++)
        {
            if (chain[k] < 0)
                continue;
            TensorPrimitives.Add(mean, accents.AsSpan(chain[k] * Accents, Accents - 2), mean);
            count++;
        }
        TensorPrimitives.Divide(mean, count, mean);
        TensorPrimitives.Subtract(into[..(Accents - 2)], mean, into[..(Accents - 2)]);
        for (var l = 0; l < LagCount; l++)
        {
            into[Accents + l] = Likeness(chain, Lags[l], rhythm: true);
            into[Accents + LagCount + l] = Likeness(chain, Lags[l], rhythm: false);
        }
        Centre(into.Slice(Accents, LagCount));
        Centre(into.Slice(Accents + LagCount, LagCount));
    }

    private static void Centre(Span<float> values)
    {
        var mean = TensorPrimitives.Sum(values) / values.Length;
        TensorPrimitives.Subtract(values, mean, values);
    }

    /// <summary>The steps about one on the best row through it, itself in the middle; −1 beyond the row's ends.</summary>
    private void Follow(int step, Span<int> chain)
    {
        chain.Fill(-1);
        chain[Farthest] = step;
        for (var k = Farthest; k > 0 && chain[k] >= 0; k--)
            chain[k - 1] = before[chain[k]];
        for (var k = Farthest; k + 1 < Chain && chain[k] >= 0; k++)
            chain[k + 1] = after[chain[k]];
    }

    /// <summary>A beat sounds in the step that leads away from it.</summary>
    private void Accent(int step, Span<float> into)
    {
        var frame = graph.Frame(graph.End(step));
        var onward = after[step];
        if (onward >= 0)
        {
            var rhythm = sound.Rhythm(onward);
            var levels = sound.Levels(onward);
            for (var r = 0; r < Regions; r++)
            {
                into[r] = rhythm[r * StepSound.Parts];
                into[Regions + r] = rhythm[r * StepSound.Parts + StepSound.Parts / 2];
                into[2 * Regions + r] = levels[r];
            }
        }
        var place = 3 * Regions;
        into[place++] = Change(step, 1, StepSound.Pitches);
        into[place++] = Change(step, 2, StepSound.Pitches);
        into[place++] = Change(step, 4, StepSound.Pitches);
        into[place++] = Change(step, 1, StepSound.BassPitches);
        into[place++] = Odds(PulseEvidence.Top(evidence.Beat, frame));
        into[place++] = Odds(PulseEvidence.Top(evidence.Change, frame));
        var share = DownbeatShare(evidence, frame);
        into[place++] = MathF.Log(share);
        into[place] = MathF.Log(1 - share);
    }

    /// <summary>The chance that a beat on a frame starts a bar, as the network says.</summary>
    public static float DownbeatShare(PulseEvidence evidence, int frame) =>
        Math.Clamp(PulseEvidence.Top(evidence.Downbeat, frame) / (PulseEvidence.Top(evidence.Beat, frame) + 0.02f), 0.03f, 0.97f);

    /// <summary>How different the pitches of so many beats from this one on are from those of as many before, 0 to 1.</summary>
    private float Change(int step, int beats, int pitches)
    {
        Span<float> earlier = stackalloc float[pitches];
        Span<float> later = stackalloc float[pitches];
        var (back, on) = (step, after[step]);
        for (var b = 0; b < beats; b++)
        {
            TensorPrimitives.Add(earlier, sound.Pitch(back)[..pitches], earlier);
            if (on >= 0)
                TensorPrimitives.Add(later, sound.Pitch(on)[..pitches], later);
            back = before[back] >= 0 ? before[back] : back;
            on = on >= 0 && after[on] >= 0 ? after[on] : on;
        }
        return 1 - Cosine(earlier, later);
    }

    /// <summary>How like a beat is to those so many beats before and after, 0 to 1: in what starts when, or in its pitches.</summary>
    private float Likeness(ReadOnlySpan<int> chain, int lag, bool rhythm)
    {
        const int Here = Farthest + 1;
        var (sum, count) = (0f, 0);
        for (var side = -1; side <= 1 && chain[Here] >= 0; side += 2)
        {
            if (Here + side * lag >= Chain || chain[Here + side * lag] < 0)
                continue;
            var other = chain[Here + side * lag];
            sum += rhythm ? Cosine(sound.Rhythm(chain[Here]), sound.Rhythm(other)) : Cosine(sound.Pitch(chain[Here]), sound.Pitch(other));
            count++;
        }
        return count == 0 ? 0 : sum / count;
    }

    private static float Cosine(ReadOnlySpan<float> a, ReadOnlySpan<float> b)
    {
        var norm = TensorPrimitives.Norm(a) * TensorPrimitives.Norm(b);
        return norm < 1e-6f ? 0 : TensorPrimitives.Dot(a, b) / norm;
    }

    private static float Odds(float p) => (float)LogOdds.Of(p, least: 0.002);
}
