using Harkbook.Listening.Evidence;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>Evidence made by hand of notes that start clearly and sound for a while; nothing else is heard. A hundred frames a second.</summary>
internal static class PluckedEvidence
{
    private const int Lowest = 36, Pitches = 61;
    private const double Length = 12;

    public static Hearing Of(params (int Midi, double Onset)[] notes)
    {
        var (sounding, onset) = (new PosteriorMatrix((int)(Length * 100), Pitches), new PosteriorMatrix((int)(Length * 100), Pitches));
        foreach (var (midi, at) in notes)
        {
            var first = (int)Math.Round(at * 100);
            (onset[first - 1, midi - Lowest], onset[first, midi - Lowest], onset[first + 1, midi - Lowest]) = (0.4f, 0.95f, 0.4f);
            for (var f = first; f < first + 40; f++)
                sounding[f, midi - Lowest] = 0.95f;
        }
        return HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 24, from: 0), 1, 2, 3, 4), [], length: Length) with
        {
            Notes = [.. notes.Select(n => new HeardNote(n.Midi, Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.Onset + 0.4), 0.95, 0.8))],
            Evidence = new() { Notes = new(Seconds.FromSeconds(0.01), Lowest, sounding, onset) },
        };
    }
}
