using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Strings;

/// <summary>
/// What the fretting finger, or a voice, does to a note's pitch while it sounds, in cents from the pluck's own frequency; the default holds still.
/// Times are those of common practice: a bend takes a quarter second, a slide from nowhere a tenth, vibrato wavers 5.5 times a second.
/// </summary>
/// <param name="SlidesFrom">Where it starts when it slides in along the frets.</param>
/// <param name="BendsTo">Where it is pulled to.</param>
/// <param name="StartsBent">Pulled aside before the pluck.</param>
/// <param name="Releases">Let back before the note ends.</param>
/// <param name="Wavers">With vibrato.</param>
/// <param name="SlidesTo">Where it ends when it slides off along the frets.</param>
/// <param name="Glides">Through all pitches between, as where there are no frets.</param>
public readonly record struct FingerMotion(Cents SlidesFrom = default, Cents BendsTo = default, bool StartsBent = false, bool Releases = false,
    bool Wavers = false, Cents SlidesTo = default, bool Glides = false)
{
    private const double SlideSeconds = 0.1, BendSeconds = 0.25, VibratoHertz = 5.5, VibratoCents = 22;

    public bool IsStill => this == default;

    /// <summary>The furthest above the pluck's own frequency that it gets.</summary>
    internal Cents Highest => Cents.FromCents(Math.Max(BendsTo.Value, Math.Max(SlidesFrom.Value, SlidesTo.Value)) is var high && high > 0 ? high : 0);

    /// <param name="t">Seconds from the pluck.</param>
    /// <param name="held">Seconds that the note is held.</param>
    public Cents At(double t, double held) => Cents.FromCents(Bent(t, held) + Wavering(t) + Slid(t, held));

    private double Bent(double t, double held)
    {
        var up = StartsBent ? 1 : Smooth(t / Math.Min(BendSeconds, 0.4 * held));
        var back = Releases ? Smooth((t / held - 0.55) / 0.3) : 0;
        return BendsTo.Value * (up - back);
    }

    private double Wavering(double t) => Wavers ? VibratoCents * Math.Clamp((t - 0.15) / 0.2, 0, 1) * Math.Sin(2 * Math.PI * VibratoHertz * (t - 0.15)) : 0;

    /// <summary>Whole frets, as a finger passes them, or all between.</summary>
    private double Slid(double t, double held)
    {
        var seconds = Math.Min(SlideSeconds, held / 3);
        var (into, off) = (Math.Clamp(1 - t / seconds, 0, 1), Math.Clamp(1 - (held - t) / seconds, 0, 1));
        var slid = SlidesFrom.Value * into + SlidesTo.Value * off;
        return Glides ? slid : 100 * Math.Round(slid / 100);
    }

    private static double Smooth(double x)
    {
        var c = Math.Clamp(x, 0, 1);
        return c * c * (3 - 2 * c);
    }
}
