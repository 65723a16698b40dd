using System.Numerics.Tensors;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Listening.Estimators.Stiffness;

/// <summary>
/// How stiff a guitar's strings are taken to be, from a set's strings by physics and then from the piece itself: log10 of B of each string at the nut. A
/// finger or capo raises it by log10(2)/6 a fret. Found by a few rounds of expectation and maximisation (Dempster, Laird and Rubin, JRSS B 39, 1977) over
/// which string each note is on.
/// </summary>
internal sealed class StringConstants
{
    private const int Rounds = 2, Steps = 17, LastFret = StringModel.LastFret;
    private const double PerFret = 0.0501716, Step = StiffnessGrid.Step, Seldom = 0.03, LeastSuited = 0.02, Certainty = 0.3;

    private readonly StringModel model;
    private readonly StiffNotes stiff;
    private readonly int[] open;
    private readonly int[] raised;
    private readonly double[] usual, spread;
    private readonly double[,] habits;

    private StringConstants(StringModel model, StiffNotes stiff, Tuning tuning, Capo capo, GaugeSet set)
    {
        (this.model, this.stiff, Set) = (model, stiff, set);
        raised = [.. tuning.Strings.Select((_, s) => capo.Raises(s))];
        open = [.. tuning.Strings.Select((p, s) => p.Midi + raised[s])];
        var wires = tuning.Strings.Select((p, s) => set.For(s, p.Midi)).ToArray();
        usual = [.. tuning.Strings.Select((p, s) => Math.Log10(wires[s].InharmonicityAt(p.Midi)))];
        spread = [.. wires.Select(w => w.IsPlain ? model.PlainSpread : model.WoundSpread)];
        AtNut = [.. usual];
        habits = new double[128, open.Length];
    }

    /// <summary>The strings that they are nearest to.</summary>
    public GaugeSet Set { get; }

    /// <summary>By string: log10 of B where it sounds from nut to bridge.</summary>
    public double[] AtNut { get; }

    /// <summary>The natural log of how likely all notes' stiffness is on this guitar, against any stiffness as likely as another.</summary>
    public double LogLikelihood { get; private set; }

    /// <summary>How likely the strings are nylon, among all sets.</summary>
    public double Nylon { get; private set; }

    /// <summary>The share of notes that are put on open strings, 0–1.</summary>
    public double OpenShare { get; private set; }

    /// <summary>The best set for a guitar, and how likely the notes are under all sets together.</summary>
    /// <param name="notes">The MIDI number of each note, and which it is.</param>
    public static StringConstants Of(StiffNotes stiff, IReadOnlyList<(int Midi, int Note)> notes, Tuning tuning, Capo capo,
        StringModel? model = null)
    {
        model ??= StiffnessModel.Shipped.Strings;
        var sets = GaugeSet.All.Select(set => new StringConstants(model, stiff, tuning, capo, set).Fitted(notes)).ToArray();
        var best = sets.MaxBy(s => s.LogLikelihood)!;
        best.Nylon = Softmax.Of([.. sets.Select(s => Certainty * s.LogLikelihood)]).Zip(sets, (p, s) => s.Set.IsNylon ? p : 0).Sum();
        best.LogLikelihood += Math.Log(sets.Average(s => Math.Exp(s.LogLikelihood - best.LogLikelihood)));
        return best;
    }

    /// <summary>How likely a note is on a string, against any stiffness as likely as another.</summary>
    public double Of(int note, int stringIndex, int fret) => stiff.Of(note, AtNut[stringIndex] + PerFret * (fret + raised[stringIndex]));

    /// <summary>
    /// By MIDI number and string: how often that pitch's notes are put on the string, against the string that has most of them; 1 where nothing is known.
    /// </summary>
    public double[,] Suits()
    {
        var suits = new double[habits.GetLength(0), open.Length];
        for (var midi = 0; midi < suits.GetLength(0); midi++)
        {
            var most = Enumerable.Range(0, open.Length).Max(s => habits[midi, s]);
            for (var s = 0; s < open.Length; s++)
                suits[midi, s] = most <= 0 ? 1 : Math.Max(LeastSuited, habits[midi, s] / most);
        }
        return suits;
    }

    /// <summary>By string: the notes that are put on it, and those among them whose stiffness speaks for it rather than for any.</summary>
    public (int Fitting, int All)[] Fits(IReadOnlyList<(int Midi, int Note)> notes)
    {
        var (counts, shares) = (new (int Fitting, int All)[open.Length], new double[notes.Count, open.Length]);
        Share(notes, shares);
        for (var i = 0; i < notes.Count; i++)
        {
            var s = Enumerable.Range(0, open.Length).MaxBy(s => shares[i, s]);
            if (shares[i, s] <= 0)
                continue;
            var fits = Of(notes[i].Note, s, notes[i].Midi - open[s]) > 1;
            counts[s] = (counts[s].Fitting + (fits ? 1 : 0), counts[s].All + 1);
        }
        return counts;
    }

    private StringConstants Fitted(IReadOnlyList<(int Midi, int Note)> notes)
    {
        var shares = new double[notes.Count, open.Length];
        for (var round = 0; round < Rounds; round++)
        {
            LogLikelihood = Share(notes, shares);
            for (var s = 0; s < open.Length; s++)
                LogLikelihood += Move(s, notes, shares);
        }
        return this;
    }

    /// <summary>
    /// How likely each note is on each string; the log-likelihood of all notes' stiffness given their pitches. Players sound a pitch where they sounded it
    /// before, and stay in a place on the neck, so each note is expected where those before it were put.
    /// </summary>
    private double Share(IReadOnlyList<(int Midi, int Note)> notes, double[,] shares)
    {
        var (total, onOpen) = (0.0, 0.0);
        Array.Clear(habits);
        Span<double> taken = stackalloc double[LastFret + 1];
        model.Likings.CopyTo(taken);
        for (var i = 0; i < notes.Count; i++)
        {
            var (sum, prior) = (0.0, 0.0);
            for (var s = 0; s < open.Length; s++)
            {
                var fret = notes[i].Midi - open[s];
                var liking = fret < 0 || fret > LastFret ? 0 : taken[fret] * (1 + model.Habit * habits[notes[i].Midi, s]);
                shares[i, s] = liking > 0 ? liking * Of(notes[i].Note, s, fret) : 0;
                (sum, prior) = (sum + shares[i, s], prior + liking);
            }
            for (var s = 0; s < open.Length && sum > 0; s++)
            {
                shares[i, s] /= sum;
                habits[notes[i].Midi, s] += shares[i, s];
                if (shares[i, s] > 0)
                    taken[notes[i].Midi - open[s]] += model.Place * shares[i, s];
                onOpen += notes[i].Midi == open[s] ? shares[i, s] : 0;
            }
            total += prior > 0 ? Math.Log(sum / prior) : 0;
        }
        OpenShare = onOpen / Math.Max(1, notes.Count);
        return total;
    }

    /// <summary>What a note says of a string, from a way below what is usual of the string to as far above.</summary>
    private ReadOnlySpan<float> Around((int Midi, int Note) note, int s) =>
        stiff.Around(note.Note, usual[s] + PerFret * (note.Midi - open[s] + raised[s]), Steps);

    /// <summary>Puts a string where its notes and what is usual have it; what not having known it costs, as a log.</summary>
    private double Move(int s, IReadOnlyList<(int Midi, int Note)> notes, double[,] shares)
    {
        Span<float> logs = stackalloc float[Steps];
        for (var k = 0; k < Steps; k++)
            logs[k] = (float)(-0.5 * Math.Pow(Step * (k - Steps / 2) / spread[s], 2));
        for (var i = 0; i < notes.Count; i++)
        {
            if (shares[i, s] > Seldom)
                TensorPrimitives.MultiplyAdd(Around(notes[i], s), (float)shares[i, s], logs, logs);
        }
        var best = 0;
        for (var k = 1; k < Steps; k++)
            best = logs[k] > logs[best] ? k : best;
        AtNut[s] = usual[s] + Step * (best - Steps / 2);
        var volume = 0.0;
        foreach (var log in logs)
            volume += MathF.Exp(log - logs[best]) * Step;
        var moved = Step * (best - Steps / 2) / spread[s];
        return Math.Log(volume / (spread[s] * Math.Sqrt(2 * Math.PI))) - 0.5 * moved * moved;
    }
}
