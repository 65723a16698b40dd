using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators;

/// <summary>Evidence as a perfect ear would give it: chosen pitches sound at chosen times.</summary>
internal sealed class Sounding(double seconds)
{
    private const double Hop = 0.01;
    private const int Lowest = 36;

    private readonly PosteriorMatrix sounding = new((int)(seconds / Hop), 61);
    private readonly PosteriorMatrix onset = new((int)(seconds / Hop), 61);

    public Sounding Play(double from, double to, params int[] midi)
    {
        foreach (var m in midi)
        {
            onset[(int)(from / Hop), m - Lowest] = 0.9f;
            for (var f = (int)(from / Hop); f < Math.Min(sounding.Frames, (int)(to / Hop)); f++)
                sounding[f, m - Lowest] = 0.9f;
        }
        return this;
    }

    /// <summary>Plays chords of equal length one after another from 0.</summary>
    public Sounding PlayEach(double length, params int[][] chords)
    {
        for (var i = 0; i < chords.Length; i++)
            Play(i * length, (i + 1) * length, chords[i]);
        return this;
    }

    public NotePosteriorgram Evidence => new(Seconds.FromSeconds(Hop), Lowest, sounding, onset);

    public Seconds Length => Seconds.FromSeconds(seconds);

    public static ImmutableArray<HeardBeat> Beats(double period, int count, int perBar = 4) =>
        [.. Enumerable.Range(0, count).Select(i => new HeardBeat(Seconds.FromSeconds(i * period), i % perBar + 1, 0.9))];
}
