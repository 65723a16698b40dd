using Harkbook.Listening.Checking.Weighing;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>
/// What speaks for a claimed note that lies below or above all that is listened for: that others do so, too, and that the same isn't heard nearer by an
/// octave or two, or is so under the others as well.
/// </summary>
internal sealed class BeyondFeatures(HeardStarts starts, WrittenNotes written)
{
    private const double Taken = 0.09;

    private readonly WrittenNote[] beyond = [.. written.Notes.ToArray().Where(n => !starts.Holds(n.Midi))];

    public Feature[] Of(NoteClaim claim)
    {
        var others = beyond.Where(n => n.Midi < starts.Notes.LowestMidi == claim.Midi < starts.Notes.LowestMidi
            && (n.Midi != claim.Midi || Math.Abs(n.Onset - claim.Onset) > 1e-6)).ToArray();
        var usual = others.Select(n => Nearer(n.Midi, n.Onset).LogOdds).DefaultIfEmpty(HeardStarts.Never).Average();
        var nearer = Nearer(claim.Midi, claim.Onset).LogOdds;
        return [new("nearer", nearer), new("over others", nearer - usual), new("others", Math.Log(1 + others.Length))];
    }

    /// <summary>How surely the same starts by an octave or two nearer, within what is listened for, where nothing written does; and by how much.</summary>
    public (double LogOdds, int By) Nearer(int midi, double onset)
    {
        var by = Enumerable.Range(1, 10).Select(o => midi < starts.Notes.LowestMidi ? 12 * o : -12 * o).First(b => starts.Holds(midi + b));
        return (written.Has(midi + by, onset, Taken) ? HeardStarts.Never : starts.At(midi + by, onset), by);
    }
}
