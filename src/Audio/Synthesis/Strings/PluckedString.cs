using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Strings;

/// <summary>
/// One string played by a finger or a pick: a digital waveguide with two polarisations, so that a note falls fast at
/// first and slowly after (Weinreich, "Coupled piano strings", JASA 62, 1977, for the two-stage decay). A new pluck
/// stops the old note; hammered, pulled and slid notes go on from it. Tuned to well under a cent from E2 to E6.
/// </summary>
public sealed class PluckedString
{
    private const double DampSeconds = 0.12;
    private const double StopSeconds = 0.02;
    private readonly double rate;
    private readonly StringSet set;
    private readonly Noise noise;
    private readonly StringStiffness? stiffness;

    /// <param name="stiffness">The string's own; the set's where nothing is said.</param>
    public PluckedString(SampleRate rate, StringSet set, int seed, StringStiffness? stiffness = null)
    {
        this.stiffness = stiffness;
        this.rate = SynthesisRate.Required(rate).Hertz;
        Rate = rate;
        this.set = set;
        noise = new(seed);
    }

    public SampleRate Rate { get; }

    /// <summary>Sounds notes in order of time into one channel of the given length; what lies beyond its end is cut.</summary>
    public Signal Sound(IEnumerable<Pluck> plucks, Seconds length) => Blocks(plucks, length, CancellationToken.None).Gathered(Rate);

    /// <summary>The same a block at a time.</summary>
    public IEnumerable<float[]> Blocks(IEnumerable<Pluck> plucks, Seconds length, CancellationToken ct)
    {
        var groups = Groups([.. plucks.OrderBy(p => p.At)]);
        (int, (List<Pluck> Group, int StoppedAt))[] notes =
            [.. groups.Select((g, i) => (Sample(g[0].At), (g, i + 1 < groups.Count ? Sample(groups[i + 1][0].At) : int.MaxValue)))];
        return NoteBuffer.Blocks(Rate.SamplesIn(length), notes, (note, buffer) => SoundGroup(note.Group, note.StoppedAt, buffer), ct);
    }

    /// <summary>A plucked note and those that go on from it while it rings.</summary>
    private static List<List<Pluck>> Groups(Pluck[] plucks)
    {
        var groups = new List<List<Pluck>>();
        foreach (var pluck in plucks)
        {
            var goesOn = pluck.Kind is PluckKind.Hammered or PluckKind.Pulled or PluckKind.Slid
                && groups.Count > 0 && groups[^1][^1].Until.Value >= pluck.At.Value - 0.02;
            if (goesOn)
                groups[^1].Add(pluck);
            else
                groups.Add([pluck]);
        }
        return groups;
    }

    private void SoundGroup(List<Pluck> group, int stoppedAt, NoteBuffer buffer)
    {
        var (start, until) = (Sample(group[0].At), Math.Min(Sample(group[^1].Until), stoppedAt));
        var tail = stoppedAt <= until ? 4 * StopSeconds : 6 * DampSeconds;
        var end = (int)Math.Min(buffer.Length, until + tail * rate);
        var moves = Moves(group, start);
        var longest = (int)(rate / group.Min(p => p.LowestFrequency)) + 2;
        var voices = new[]
        {
            new StringVoice(this, moves[0].Frequency, group[0], longest, 0.45, 0.8, -0.1),
                new StringVoice(this, moves[0].Frequency, group[0], longest, 1, 0.3, 0.1),
        };
        var input = new double[Math.Max(0, end - start)];
        foreach (var pluck in group)
            AddExcitation(pluck, Sample(pluck.At) - start, input);
        var (next, unheard) = (1, Math.Max(0, -start));
        var samples = buffer.Reach(start, end);
        for (var n = unheard; n < input.Length; n++)
        {
            for (; next < moves.Count && moves[next].Sample <= n; next++)
                Array.ForEach(voices, v => v.Move(moves[next].Frequency));
            if (start + n == until)
                Array.ForEach(voices, v => v.Damp(stoppedAt <= until ? StopSeconds : DampSeconds));
            samples[n - unheard] += (float)((voices[0].Next(input[n]) + voices[1].Next(input[n])) * FadeOut(input.Length - n));
        }
    }

    /// <summary>The last five milliseconds before a note is let go of for good fade, so that nothing clicks.</summary>
    private double FadeOut(int left) => Math.Min(1, left / (0.005 * rate));

    /// <summary>Pitches in order with the sample, from the group's start, at which each begins; slides pass the semitones between.</summary>
    private List<(int Sample, double Frequency)> Moves(List<Pluck> group, int start)
    {
        var moves = new List<(int Sample, double Frequency)>();
        for (var i = 0; i < group.Count; i++)
        {
            if (i > 0 && group[i].Kind == PluckKind.Slid)
                moves.AddRange(Frets(group[i - 1], group[i], start));
            moves.AddRange(Moving(group[i], i + 1 < group.Count ? Departure(group[i], group[i + 1]) : group[i].Until, start));
        }
        return moves;
    }

    private const double SecondsPerFret = 0.018;

    private static int FretsBetween(Pluck from, Pluck to) => (int)Math.Round(Math.Abs(Cents.Between(from.Frequency, to.Frequency).Value) / 100);

    /// <summary>When a note is left for the next one.</summary>
    private static Seconds Departure(Pluck from, Pluck to) =>
        to.Kind == PluckKind.Slid ? to.At - Seconds.FromSeconds(Math.Max(0, FretsBetween(from, to) - 1) * SecondsPerFret) : to.At;

    private IEnumerable<(int Sample, double Frequency)> Frets(Pluck from, Pluck to, int start)
    {
        var frets = FretsBetween(from, to);
        for (var f = 1; f < frets; f++)
            yield return (Sample(to.At) - start - (int)((frets - f) * SecondsPerFret * rate),
                from.Frequency.Raised(Cents.Between(from.Frequency, to.Frequency) * ((double)f / frets)).Value);
    }

    /// <summary>One note's pitch from its start until it is left: in steps too small to hear while the finger moves.</summary>
    private IEnumerable<(int Sample, double Frequency)> Moving(Pluck pluck, Seconds left, int start)
    {
        const double Step = 0.003;
        var held = (left - pluck.At).Value;
        for (var t = 0.0; t == 0 || (t < held && !pluck.Motion.IsStill); t += Step)
            yield return (Sample(pluck.At + Seconds.FromSeconds(t)) - start,
                pluck.Frequency.Raised(pluck.Motion.IsStill ? default : pluck.Motion.At(t, held)).Value);
    }

    private void AddExcitation(Pluck pluck, int at, double[] input)
    {
        var share = pluck.Kind switch { PluckKind.Hammered => 0.35, PluckKind.Pulled => 0.45, PluckKind.Slid => 0.12, _ => 1 };
        if (pluck.Strength <= 0)
            return;
        var shape = PluckShape.Of(set, pluck.Frequency.Value, Math.Min(1, pluck.Strength) * share, rate, noise);
        for (var i = Math.Max(0, -at); i < shape.Length && at + i < input.Length; i++)
            input[at + i] += shape[i];
    }

    private int Sample(Seconds time) => Rate.SamplesIn(time);

    /// <summary>One polarisation with its share of the sound.</summary>
    private sealed class StringVoice
    {
        private readonly PluckedString owner;
        private readonly double sustainShare, level, cents, choke;
        private readonly StringLoop loop;
        private double frequency;

        public StringVoice(PluckedString owner, double frequency, Pluck first, int longest, double sustainShare, double level, double cents)
        {
            (this.owner, this.sustainShare, this.level, this.cents) = (owner, sustainShare, level, cents);
            choke = first.Kind == PluckKind.Choked ? 0.05 : 1;
            loop = new(For(frequency), longest, owner.rate);
        }

        public void Move(double to) => loop.Retune(For(to));

        public void Damp(double seconds) => loop.Choke(Math.Pow(10, -3 / (frequency * seconds)));

        public double Next(double excitation) => level * loop.Next(excitation);

        private LoopTuning For(double at)
        {
            frequency = at;
            var set = owner.set;
            var sustain = set.SustainAt(at) * sustainShare * choke;
            return LoopTuning.For(at * Math.Pow(2, cents / 1200), sustain, Math.Min(sustain, set.HighSustain.Value * choke),
                owner.stiffness?.At(at) ?? set.Inharmonicity, owner.rate);
        }
    }
}
