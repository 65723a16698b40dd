using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Strings;

/// <summary>How a string is set going.</summary>
public enum PluckKind
{
    /// <summary>By pick or finger: what rang before stops.</summary>
    Plucked,

    /// <summary>By a finger coming down while the string still rings.</summary>
    Hammered,

    /// <summary>By a finger leaving while the string still rings.</summary>
    Pulled,

    /// <summary>By a finger moving along the string, over the frets between.</summary>
    Slid,

    /// <summary>Plucked while the other hand rests on the string: a thud with little pitch.</summary>
    Choked,
}

/// <summary>One note on one string.</summary>
/// <param name="At">When it starts.</param>
/// <param name="Until">When it is damped, unless the next note on the string stops it first.</param>
/// <param name="Frequency">The fundamental.</param>
/// <param name="Strength">0 (silent) to 1 (as hard as is musical).</param>
/// <param name="Motion">What the fretting finger does to the pitch meanwhile.</param>
public readonly record struct Pluck(Seconds At, Seconds Until, Hertz Frequency, double Strength, PluckKind Kind = PluckKind.Plucked,
    FingerMotion Motion = default)
{
    /// <summary>The lowest frequency that it passes.</summary>
    internal double LowestFrequency => Frequency.Value * Math.Pow(2,
        (Math.Min(0, Motion.SlidesFrom.Value) + Math.Min(0, Motion.SlidesTo.Value) - (Motion.Wavers ? 100 : 0)) / 1200);
}
