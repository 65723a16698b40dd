using System.Collections.Immutable;

namespace Harkbook.Music.Theory;

/// <summary>How strongly each of the twelve semitones above the tonic belongs to a major and to a minor key, by one published study.</summary>
/// <param name="Source">The publication.</param>
/// <param name="Major">12 weights, the tonic first, then each semitone up.</param>
/// <param name="Minor">The same for minor keys.</param>
public sealed record KeyProfile(string Name, string Source, ImmutableArray<double> Major, ImmutableArray<double> Minor)
{
    /// <summary>
    /// How well counts of pitch classes fit each of the 24 major and minor keys: Pearson's correlation with the profile
    /// turned to each tonic (Krumhansl and Schmuckler's method), the best first. Ties go to the tonic with fewer signs.
    /// </summary>
    /// <param name="counts">12 weights, C first; durations or numbers of notes.</param>
    public ImmutableArray<KeyFit> Rank(ReadOnlySpan<double> counts)
    {
        if (counts.Length != 12)
            throw new ArgumentException($"Twelve counts are needed, one a pitch class from C up; there are {counts.Length}.", nameof(counts));
        var fits = ImmutableArray.CreateBuilder<KeyFit>(24);
        for (var tonic = 0; tonic < 12; tonic++)
        {
            fits.Add(new(new(TonicName(tonic, Mode.Major), Mode.Major), Correlation(counts, Major, tonic)));
            fits.Add(new(new(TonicName(tonic, Mode.Minor), Mode.Minor), Correlation(counts, Minor, tonic)));
        }
        return [.. fits.OrderByDescending(f => f.Correlation).ThenBy(f => Math.Abs(f.Key.Signature))];
    }

    /// <summary>Pearson's r of the counts and a profile turned to a tonic (0–11); 0 where the counts are all alike.</summary>
    public static double Correlation(ReadOnlySpan<double> counts, ImmutableArray<double> profile, int tonic)
    {
        var (countMean, profileMean) = (Mean(counts), Mean(profile.AsSpan()));
        double product = 0, countSquares = 0, profileSquares = 0;
        for (var i = 0; i < 12; i++)
        {
            var (x, y) = (counts[(i + tonic) % 12] - countMean, profile[i] - profileMean);
            product += x * y;
            countSquares += x * x;
            profileSquares += y * y;
        }
        return countSquares == 0 ? 0 : product / Math.Sqrt(countSquares * profileSquares);
    }

    /// <summary>The usual tonic name: the key signature with the fewest signs (Db, not C#, major; C#, not Db, minor).</summary>
    public static PitchName TonicName(int pitchClass, Mode mode) =>
        PitchName.FromPitchClass(pitchClass, mode.IsMinor ? 2 : 0);

    private static double Mean(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        foreach (var value in values)
            sum += value;
        return sum / values.Length;
    }
}

/// <summary>How well a key fits, as a correlation from −1 to 1.</summary>
public readonly record struct KeyFit(Key Key, double Correlation);
