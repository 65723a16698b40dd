using System.Globalization;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.ReferencePitch;

/// <summary>
/// What A4 is in a recording, within half a semitone of 440 Hz: where the deviations of its low partials from the semitones
/// of A440 gather (circular statistics as in M. Müller, "Fundamentals of Music Processing", 2nd ed., 2021, section 3.1, and
/// A. Lerch, "On the requirement of automatic tuning frequency estimation", ISMIR 2006).
/// A tape that ran fast or slow shows here too; a whole semitone can't be seen.
/// </summary>
public sealed class ReferencePitchEstimator(ReferencePitchOptions? options = null)
{
    private readonly ReferencePitchOptions options = options ?? new();

    /// <summary>Candidates for A4, the likeliest first. Silence gives A440 with confidence 0.</summary>
    public Distribution<Hertz> Estimate(ISound mono, CancellationToken ct = default)
    {
        var partials = new PartialFinder(options).Find(mono.ToMono(), ct);
        if (partials.Sum(p => p.Weight) <= 0)
            return new(new Candidate<Hertz>(Hertz.A440, 0, "No steady pitch was heard, so A = 440 Hz is assumed."));
        var profile = new DeviationProfile(partials, options.Tolerance);
        var best = profile.Centre(profile.Peaks()[0]);
        var (confidence, reason) = Trust(partials, best);
        return new([Described(best, confidence, reason), .. Others(profile, best, confidence)]);
    }

    private (double Confidence, string Reason) Trust(List<Partial> partials, double best)
    {
        var length = partials.Max(p => p.Seconds) + 1e-9;
        var centres = Enumerable.Range(0, options.Stretches)
            .Select(s => partials.FindAll(p => (int)(p.Seconds / length * options.Stretches) == s))
            .Where(own => own.Count > 0)
            .Select(own => (Profile: new DeviationProfile(own, options.Tolerance), Weight: own.Sum(p => p.Weight)))
            .Select(s => (Off: Math.Abs(CircularCents.Wrapped(s.Profile.Centre(s.Profile.Peaks()[0]) - best)), s.Weight))
            .ToList();
        var agreeing = centres.Count(c => c.Off <= 5);
        var share = centres.Where(c => c.Off <= 5).Sum(c => c.Weight) / centres.Sum(c => c.Weight);
        var near = partials.Where(p => Math.Abs(CircularCents.Wrapped(p.Deviation - best)) <= 2 * options.Tolerance.Value).Sum(p => p.Weight)
            / partials.Sum(p => p.Weight);
        var expected = 4 * options.Tolerance.Value / 100;
        var gathering = Math.Clamp((near - expected) / (1 - expected), 0, 1);
        return (0.98 * share * Math.Sqrt(gathering), $"{agreeing} of {centres.Count} stretches agree within 5 cents");
    }

    private static IEnumerable<Candidate<Hertz>> Others(DeviationProfile profile, double best, double confidence)
    {
        var left = 1 - confidence;
        foreach (var peak in profile.Peaks().Skip(1).Take(2))
            yield return Described(profile.Centre(peak), Math.Min(confidence, left) * 0.3 * profile.Height(peak) / profile.Height(profile.Peaks()[0]),
                "a second gathering of partials");
        if (Math.Abs(best) > 35)
        {
            var other = best - 100 * Math.Sign(best);
            yield return Described(other, Math.Min(confidence, left) * 0.4, "the same pitches counted from the next semitone");
        }
    }

    private static Candidate<Hertz> Described(double cents, double confidence, string reason)
    {
        var a4 = Hertz.A440.Raised(Cents.FromCents(cents));
        var speed = 100 * (Math.Pow(2, cents / 1200) - 1);
        return new(a4, confidence, string.Create(CultureInfo.InvariantCulture,
            $"{cents:+0.0;-0.0;0.0} cents from A440, as a tape {Math.Abs(speed):0.00}% {(speed < 0 ? "slow" : "fast")} would give; {reason}."));
    }
}
