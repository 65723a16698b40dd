using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Checking.Weighing;

/// <summary>What the posteriorgram says of a pitch about a time, in log-odds. Pitches that it doesn't hold neither start nor sound.</summary>
internal sealed class HeardStarts(NotePosteriorgram notes)
{
    /// <summary>How far from its place a note may start, in seconds: a strum alone lasts that long.</summary>
    public const double Reach = 0.07;

    /// <summary>No evidence is taken to be surer than this.</summary>
    private const double Least = 0.0025;

    /// <summary>Log-odds of what certainly isn't.</summary>
    public static double Never { get; } = Listening.LogOdds.Of(0, Least);

    public NotePosteriorgram Notes => notes;

    /// <summary>The strongest start of a pitch between two times, and when it is.</summary>
    public (double LogOdds, double Time) Strongest(int midi, double from, double to)
    {
        var pitch = midi - notes.LowestMidi;
        if (!Holds(midi))
            return (Never, from);
        var (first, last) = (Frame(from), Frame(to));
        var best = first;
        for (var f = first + 1; f <= last; f++)
        {
            if (notes.Onset[f, pitch] > notes.Onset[best, pitch])
                best = f;
        }
        return (Listening.LogOdds.Of(notes.Onset[best, pitch], Least), best * notes.Hop.Value);
    }

    /// <summary>How surely a pitch starts at a time.</summary>
    public double At(int midi, double time, double reach = Reach) => Strongest(midi, time - reach, time + reach).LogOdds;

    /// <summary>How surely a pitch sounds between two times, on the mean.</summary>
    public double Sounds(int midi, double from, double to)
    {
        var pitch = midi - notes.LowestMidi;
        if (!Holds(midi))
            return Never;
        var (first, last, sum) = (Frame(from), Frame(to), 0.0);
        for (var f = first; f <= last; f++)
            sum += notes.Sounding[f, pitch];
        return Listening.LogOdds.Of(sum / (last - first + 1), Least);
    }

    /// <summary>How loud a pitch gets between two times, 0 to 1 (<see cref="NotePosteriorgram.Level"/>).</summary>
    public double Level(int midi, double from, double to)
    {
        var most = 0f;
        for (var f = Frame(from); Holds(midi) && f <= Frame(to); f++)
            most = Math.Max(most, notes.Level[f, midi - notes.LowestMidi]);
        return most;
    }

    /// <summary>Whether a pitch is listened for at all.</summary>
    public bool Holds(int midi) => notes.Frames > 0 && midi >= notes.LowestMidi && midi < notes.LowestMidi + notes.Pitches;

    private int Frame(double time) => Math.Clamp((int)Math.Round(time / notes.Hop.Value), 0, notes.Frames - 1);
}
