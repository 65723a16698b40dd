using System.Collections.Immutable;
using Harkbook.Listening;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>What a listener makes of played notes: some missed, some invented (overtones above all), onsets and ends a little off.</summary>
internal static class Mishearing
{
    private static readonly int[] Overtones = [12, 12, 12, 19, 24, 7, -12, -12];

    /// <param name="badness">1: a tenth missed, a twelfth invented; 0: none.</param>
    /// <returns>Each heard note with the index of the played one, or −1.</returns>
    public static (ImmutableArray<HeardNote> Heard, int[] Source) Of(List<PlayedNote> notes, Random random, double badness)
    {
        var heard = new List<(HeardNote Note, int Source)>();
        for (var i = 0; i < notes.Count; i++)
        {
            var note = notes[i];
            var masked = notes.Any(o => o != note && Math.Abs(o.Onset - note.Onset) < 0.05 && note.Midi - o.Midi is 12 or 19 or 24);
            // Two strings at one pitch are heard as one.
            if (notes.Take(i).TakeLast(8).Any(o => o.Midi == note.Midi && note.Onset - o.Onset < 0.04 && o.StringIndex != note.StringIndex))
                continue;
            if (random.NextDouble() < badness * (masked ? 0.25 : 0.07))
                continue;
            var octave = random.NextDouble() < 0.01 * badness ? (random.Next(2) == 0 ? 12 : -12) : 0;
            heard.Add((Heard(note, note.Midi + octave, random, 0.6 + 0.4 * random.NextDouble(), badness), octave == 0 ? i : -1));
            if (random.NextDouble() < 0.08 * badness)
                heard.Add((Heard(note, note.Midi + Overtones[random.Next(Overtones.Length)], random, 0.3 + 0.5 * random.NextDouble(), badness), -1));
        }
        var order = heard.Where(h => h.Note.Midi is > 20 and < 100).OrderBy(h => h.Note.Onset).ThenBy(h => h.Note.Midi).ToList();
        return ([.. order.Select(o => o.Note)], [.. order.Select(o => o.Source)]);
    }

    private static HeardNote Heard(PlayedNote note, int midi, Random random, double confidence, double badness)
    {
        var onset = Math.Max(0, note.Onset + 0.008 * badness * Normal(random));
        var length = (note.End - note.Onset) * (random.NextDouble() < 0.2 * badness ? 1 + 0.5 * random.NextDouble() : 1 - badness * 0.5 * random.NextDouble());
        return new(midi, Seconds.FromSeconds(onset), Seconds.FromSeconds(onset + Math.Max(0.05, length)), confidence, note.Strength);
    }

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
