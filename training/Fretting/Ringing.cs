using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Training.Fretting;

/// <summary>Strings that sound until they are struck again, their finger leaves, or they have died away.</summary>
internal sealed class Ringing(Fretboard board, Random random)
{
    private readonly List<PlayedNote> done = [];
    private readonly PlayedNote?[] sounding = new PlayedNote?[board.Tuning.Count];

    public List<PlayedNote> Notes(double length)
    {
        foreach (var note in sounding.Where(n => n is not null))
            done.Add(note!);
        return [.. done.Select(n => n with { End = Math.Min(n.End, length - 0.05) }).Where(n => n.End - n.Onset > 0.04).OrderBy(n => n.Onset)];
    }

    /// <summary>Fingers that the new shape takes elsewhere let their strings go; open strings ring on, mostly.</summary>
    public void Hold(Shape shape, double at)
    {
        for (var s = 0; s < sounding.Length; s++)
        {
            if (sounding[s] is { } note && (note.Fret > 0 && shape.Frets[s] != note.Fret || note.Fret == 0 && (shape.Frets[s] > 0 || random.NextDouble() < 0.3)))
                Stop(s, at - 0.02);
        }
    }

    public void Strum(Shape shape, double at, double spread, double strength, bool up, int strings)
    {
        var order = Enumerable.Range(0, shape.Frets.Length).Where(s => shape.Frets[s] is not null).ToList();
        if (up)
            order.Reverse();
        var count = Math.Min(strings, order.Count);
        for (var i = 0; i < count; i++)
            Sound(order[i], shape.Frets[order[i]]!.Value, at + spread * i / 5, strength * (0.8 + 0.4 * random.NextDouble()));
    }

    /// <param name="lineNote">Whether the hand moves on after it, so that it lasts no longer than the next note.</param>
    public void Sound(int s, int fret, double at, double strength, bool lineNote = false)
    {
        at += 0.006 * (random.NextDouble() - 0.5);
        if (lineNote)
        {
            for (var other = 0; other < sounding.Length; other++)
            {
                if (sounding[other] is { Fret: > 0 } && random.NextDouble() < 0.8)
                    Stop(other, at + 0.02);
            }
        }
        Stop(s, at);
        var midi = board.MidiAt(s, fret);
        var life = (fret == 0 ? 3.5 : 2.2) * Math.Pow(2, (50 - midi) / 24.0) * (0.6 + 0.8 * random.NextDouble());
        sounding[s] = new(midi, at, at + life, s, fret, strength);
    }

    private void Stop(int s, double at)
    {
        if (sounding[s] is { } note)
            done.Add(note with { End = Math.Min(note.End, Math.Max(at, note.Onset + 0.02)) });
        sounding[s] = null;
    }
}
