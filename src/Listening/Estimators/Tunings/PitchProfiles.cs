using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// How often each pitch was struck, was the lowest or the highest of a strum, and how long it rang: the square roots of shares, so that what
/// sounds seldom still counts.
/// </summary>
internal sealed class PitchProfiles
{
    private const int Kinds = 4;

    /// <summary>Frets that are looked at, from one below the open string.</summary>
    private const int First = -1, Last = 7;

    public static readonly ImmutableArray<string> Names =
    [
        .. Enumerable.Range(First, Last - First + 1).Select(fret => $"fret {fret}"),
        "open and ringing", "strums start open", "strums start on the next open string", "strums end open", "strums end at fret 2", "strums end at fret 3",
    ];

    private readonly double[][] profiles;

    public PitchProfiles(ImmutableArray<HeardNote> notes, IReadOnlyList<StruckNotes> groups)
    {
        profiles = [.. Enumerable.Range(0, Kinds).Select(_ => new double[128])];
        foreach (var group in groups)
        {
            foreach (var note in group.Notes)
            {
                profiles[0][notes[note].Midi & 127] += notes[note].Confidence;
                profiles[1][notes[note].Midi & 127] += notes[note].Confidence * Math.Min(4, (notes[note].End - notes[note].Onset).Value);
            }
            if (group.Notes.Length < 3)
                continue;
            profiles[2][notes[group.Notes[0]].Midi & 127]++;
            profiles[3][notes[group.Notes[^1]].Midi & 127]++;
        }
        foreach (var profile in profiles)
        {
            var total = Math.Max(profile.Sum(), 1e-9);
            for (var midi = 0; midi < 128; midi++)
                profile[midi] = Math.Sqrt(profile[midi] / total);
        }
    }

    /// <summary>
    /// What is heard at each fret of all strings together, and open on the strings on which strums start and end and on those that ring.
    /// In the order of <see cref="Names"/>.
    /// </summary>
    public IEnumerable<double> Around(int[] open) =>
    [
        .. Enumerable.Range(First, Last - First + 1).Select(fret => open.Sum(pitch => At(0, pitch + fret))),
        open.Sum(pitch => At(1, pitch)), At(2, open[0]), At(2, open[1]), At(3, open[^1]), At(3, open[^1] + 2), At(3, open[^1] + 3),
    ];

    private double At(int kind, int midi) => profiles[kind][Math.Clamp(midi, 0, 127)];
}
