using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// How often each pitch was struck, was the lowest or the highest of a strum, and how long it rang: the square roots of shares, so that what
/// sounds seldom still counts.
/// </summary>
internal sealed class PitchProfiles
{
    public const int Kinds = 4;

    /// <summary>Frets beside each open string that are looked at, from two below it.</summary>
    public const int First = -2, Last = 7;

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

    /// <summary>By kind, string and fret, the last fastest.</summary>
    public IEnumerable<double> Around(int[] open) =>
        from profile in profiles
        from pitch in open
        from fret in Enumerable.Range(First, Last - First + 1)
        select profile[Math.Clamp(pitch + fret, 0, 127)];
}
