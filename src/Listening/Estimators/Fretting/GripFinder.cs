namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>Lists the cheapest ways to sound notes struck together, for each place of the hand.</summary>
internal sealed class GripFinder(Neck neck, FretWeights weights, int kept)
{
    private readonly List<HeldFrets> found = [];
    private readonly sbyte[] noteOfString = new sbyte[neck.Strings];
    private readonly sbyte[] fretOfString = new sbyte[neck.Strings];
    private int[] midi = [];
    private double[] leftOut = [];
    private Func<int, int, double>? habit;
    private int position;

    /// <param name="midi">Rising.</param>
    /// <param name="leftOut">What leaving out each note costs.</param>
    /// <param name="habit">What each note costs on each string.</param>
    public List<HeldFrets> At(int position, int[] midi, double[] leftOut, Func<int, int, double>? habit)
    {
        (this.position, this.midi, this.leftOut, this.habit) = (position, midi, leftOut, habit);
        found.Clear();
        Array.Fill(noteOfString, (sbyte)-1);
        Array.Fill(fretOfString, (sbyte)-1);
        Place(0, 0);
        return [.. found];
    }

    private void Place(int note, double cost)
    {
        if (found.Count == kept && cost >= found[^1].Cost)
            return;
        if (note == midi.Length)
        {
            Keep(cost + Together());
            return;
        }
        for (var s = 0; s < neck.Strings; s++)
        {
            if (noteOfString[s] >= 0 || neck.FretOf(midi[note], s) is not (>= 0 and var fret) || Pressing(s, fret) is not { } effort)
                continue;
            (noteOfString[s], fretOfString[s]) = ((sbyte)note, (sbyte)fret);
            Place(note + 1, cost + effort + (habit?.Invoke(note, s) ?? 0));
            (noteOfString[s], fretOfString[s]) = (-1, -1);
        }
        Place(note + 1, cost + leftOut[note]);
    }

    /// <summary>Null where the hand doesn't reach.</summary>
    private double? Pressing(int s, int fret)
    {
        if (fret == 0)
            return weights.Open + weights.OpenPerFret * Math.Max(0, position - 4);
        var offset = neck.Place(s, fret) - position;
        return neck.Reach.Holds(offset) ? (neck.Reach.IsStretch(offset) ? weights.Stretch : 0) + weights.Height * fret : null;
    }

    private double Together()
    {
        var (last, lastPitch, cost) = (-1, 0, 0.0);
        for (var s = 0; s < fretOfString.Length; s++)
        {
            if (noteOfString[s] < 0)
                continue;
            var pitch = midi[noteOfString[s]];
            cost += last < 0 ? 0 : weights.Gap * (s - last - 1) + (pitch < lastPitch ? weights.Crossing : 0);
            (last, lastPitch) = (s, pitch);
        }
        return cost + Fingers();
    }

    /// <summary>The index finger may lie across all strings at its fret unless an open one is between.</summary>
    private double Fingers()
    {
        var (atIndex, others) = (0, 0);
        for (var s = 0; s < fretOfString.Length; s++)
        {
            if (fretOfString[s] > 0)
                _ = neck.Place(s, fretOfString[s]) == position ? atIndex++ : others++;
        }
        if (atIndex + others <= 4 && (atIndex < 2 || HasOpen()))
            return 0;
        var barre = atIndex >= 2 && !OpenUnderBarre();
        return (barre ? weights.Barre : 0) + weights.FifthFinger * Math.Max(0, (barre ? 1 : atIndex) + others - 4);
    }

    private bool HasOpen() => Array.IndexOf(fretOfString, (sbyte)0) >= 0;

    private bool OpenUnderBarre()
    {
        var first = Array.FindIndex(fretOfString, f => f > 0);
        return Array.FindIndex(fretOfString, first, f => f == 0) >= 0;
    }

    private void Keep(double cost)
    {
        if (found.Count == kept && cost >= found[^1].Cost)
            return;
        var grip = new HeldFrets(position, [.. noteOfString], [.. fretOfString], cost);
        var place = found.FindIndex(g => g.Cost > cost);
        found.Insert(place < 0 ? found.Count : place, grip);
        if (found.Count > kept)
            found.RemoveAt(kept);
    }
}
