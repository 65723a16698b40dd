using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>
/// Finds where on the neck a player could have played a list of notes, by one search over time. A state is the hand's place
/// with what each string last sounded; a step takes the notes struck together. A beam keeps the cheapest few states for each
/// place of the hand (dynamic programming over positions goes back to Sayegh, Computer Music Journal 13(3), 1989).
/// </summary>
internal sealed class FretSearch(Neck neck, FretWeights weights, int statesPerPosition, int gripsPerPosition, Func<int, int, double>? onString = null)
{
    /// <summary>Groups after which the ways still open judge a note's place, and the cost by which a way's say falls e-fold.</summary>
    private const int Lag = 8;
    private const double Softness = 4;

    /// <summary>How often places were right on made pieces where no way and where every way still open agreed.</summary>
    private const double Least = 0.4, Most = 0.85;

    private const double RingsFrom = 0.12, WholeOverlap = 0.5, Quick = 0.15, Unhurried = 0.3;

    private readonly GripFinder grips = new(neck, weights, gripsPerPosition);

    private sealed class State(HeldFrets? grip, State? before, double cost, sbyte[] frets, double[] ends)
    {
        public HeldFrets? HeldFrets => grip;
        public State? Before => before;
        public double Cost => cost;

        /// <summary>By string: the last fret, −1 where it hasn't sounded; and until when its note is heard.</summary>
        public sbyte[] Frets => frets;
        public double[] Ends => ends;
        public int Position => grip?.Position ?? 0;
    }

    public FretPath Find(ImmutableArray<HeardNote> notes, IReadOnlyList<StruckNotes> groups, Habit? habit = null, CancellationToken ct = default)
    {
        var path = new Outcome(notes.Length);
        groups = [.. groups.Select(g => g.Strongest(neck.Strings, notes))];
        List<State> beam = [new(null, null, 0, [.. Enumerable.Repeat((sbyte)-1, neck.Strings)], new double[neck.Strings])];
        for (var g = 0; g < groups.Count; g++)
        {
            ct.ThrowIfCancellationRequested();
            beam = Step(beam, groups[g], notes, habit, g == 0 ? double.PositiveInfinity : groups[g].Time - groups[g - 1].Time);
            if (g >= Lag)
                Judge(beam, Lag, groups[g - Lag], path);
        }
        for (var back = Math.Min(Lag, groups.Count) - 1; back >= 0; back--)
            Judge(beam, back, groups[groups.Count - 1 - back], path);
        return Trace(beam.MinBy(s => s.Cost)!, groups, path);
    }

    private List<State> Step(List<State> beam, StruckNotes struck, ImmutableArray<HeardNote> notes, Habit? habit, double time)
    {
        int[] midi = [.. struck.Notes.Select(i => notes[i].Midi)];
        double[] leftOut = [.. struck.Notes.Select(i => weights.Unplaced * Math.Max(0.3, notes[i].Confidence) * (IsEcho(notes[i].Midi, midi)
            ? weights.Echo : 1))];
        Func<int, int, double>? costs = habit is null && onString is null ? null
            : (note, s) => (habit?.Cost(struck.Notes[note], s) ?? 0) + (onString?.Invoke(struck.Notes[note], s) ?? 0);
        var next = new List<State>();
        for (var position = 1; position <= neck.LastPlace - 3 || position == 1; position++)
            next.AddRange(Best(beam, grips.At(position, midi, leftOut, costs), struck, notes, time));
        return next;
    }

    /// <summary>Listening hears octaves and twelfths of what sounds, above and below.</summary>
    private static bool IsEcho(int pitch, int[] together) => together.Any(other => Math.Abs(pitch - other) is 12 or 19 or 24);

    private IEnumerable<State> Best(List<State> beam, List<HeldFrets> ways, StruckNotes struck, ImmutableArray<HeardNote> notes, double time)
    {
        var best = new PriorityQueue<(State Before, HeldFrets HeldFrets, double Cost), double>();
        foreach (var grip in ways)
        {
            foreach (var before in beam)
            {
                var soFar = before.Cost + grip.Cost;
                if (best.Count == statesPerPosition && best.TryPeek(out _, out var worst) && soFar >= -worst)
                    continue;
                var cost = soFar + Change(before, grip, struck.Time, time);
                best.Enqueue((before, grip, cost), -cost);
                if (best.Count > statesPerPosition)
                    best.Dequeue();
            }
        }
        return best.UnorderedItems.Select(b => Next(b.Element.Before, b.Element.HeldFrets, b.Element.Cost, struck, notes));
    }

    /// <summary>What moving from a state to a grip costs.</summary>
    private double Change(State before, HeldFrets grip, double now, double time)
    {
        var shift = before.HeldFrets is null ? 0 : Math.Abs(grip.Position - before.Position);
        var cost = shift == 0 ? 0 : (weights.Shift + weights.ShiftPerFret * shift) * (time < Quick ? 2 : time < Unhurried ? 1.3 : 1);
        for (var s = 0; s < neck.Strings; s++)
        {
            var (fret, last) = (grip.FretOfString[s], before.Frets[s]);
            var rings = last >= 0 ? before.Ends[s] - now - RingsFrom : -1;
            if (fret >= 0)
            {
                cost += fret > 0 && fret != last ? weights.NewFinger : 0;
                cost += rings > 0 && fret != last ? weights.CutShort * Math.Min(1, rings / WholeOverlap) : 0;
            }
            else if (rings > 0 && last > 0 && !neck.Reach.Holds(neck.Place(s, last) - grip.Position))
            {
                cost += weights.LetGo * Math.Min(1, rings / WholeOverlap);
            }
        }
        return cost;
    }

    /// <summary>Fingers that the hand has moved away from are forgotten.</summary>
    private State Next(State before, HeldFrets grip, double cost, StruckNotes struck, ImmutableArray<HeardNote> notes)
    {
        var (frets, ends) = ((sbyte[])before.Frets.Clone(), (double[])before.Ends.Clone());
        for (var s = 0; s < frets.Length; s++)
        {
            if (grip.NoteOfString[s] is >= 0 and var note)
                (frets[s], ends[s]) = (grip.FretOfString[s], notes[struck.Notes[note]].End.Value);
            else if (frets[s] > 0 && !neck.Reach.Holds(neck.Place(s, frets[s]) - grip.Position))
                frets[s] = -1;
        }
        return new(grip, before, cost, frets, ends);
    }

    /// <summary>How far the ways still open agree on the places of an earlier group.</summary>
    private void Judge(List<State> beam, int back, StruckNotes struck, Outcome path)
    {
        var least = beam.Min(s => s.Cost);
        var total = 0.0;
        foreach (var state in beam)
        {
            var weight = Math.Exp((least - state.Cost) / Softness);
            total += weight;
            var then = state;
            for (var i = 0; i < back; i++)
                then = then.Before!;
            for (var s = 0; s < neck.Strings; s++)
            {
                if (then.HeldFrets!.NoteOfString[s] is >= 0 and var note)
                    path.Add(struck.Notes[note], s, weight);
            }
        }
        foreach (var note in struck.Notes)
            path.Divide(note, total);
    }

    private FretPath Trace(State last, IReadOnlyList<StruckNotes> groups, Outcome outcome)
    {
        var count = outcome.Shares.Length;
        var (strings, frets, confidence) = (new int[count], new int[count], new double[count]);
        Array.Fill(strings, -1);
        Array.Fill(frets, -1);
        var positions = new int[groups.Count];
        var state = last;
        for (var g = groups.Count - 1; g >= 0; g--, state = state.Before!)
        {
            positions[g] = state.Position;
            for (var s = 0; s < neck.Strings; s++)
            {
                if (state.HeldFrets!.NoteOfString[s] is not (>= 0 and var note))
                    continue;
                var index = groups[g].Notes[note];
                (strings[index], frets[index], confidence[index]) = (s, state.HeldFrets.FretOfString[s], Least + (Most - Least) * outcome.Shares[index]
                    .GetValueOrDefault(s));
            }
        }
        return new(strings, frets, confidence, positions, last.Cost);
    }

    private sealed class Outcome(int notes)
    {
        public Dictionary<int, double>[] Shares { get; } = [.. Enumerable.Range(0, notes).Select(_ => new Dictionary<int, double>())];

        public void Add(int note, int stringIndex, double weight) => Shares[note][stringIndex] = Shares[note].GetValueOrDefault(stringIndex) + weight;

        public void Divide(int note, double total)
        {
            foreach (var s in Shares[note].Keys.ToArray())
                Shares[note][s] /= total;
        }
    }
}
