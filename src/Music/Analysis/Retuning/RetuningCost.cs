namespace Harkbook.Music.Analysis.Retuning;

/// <summary>
/// What changing from one setting to another is taken to cost between two songs. The weights are our judgement of the time and
/// trouble: a string to turn and check counts 1, each semitone a little, a capo to move less than a string.
/// </summary>
public sealed record RetuningCost
{
    public static RetuningCost Usual { get; } = new();

    public double EachString { get; init; } = 1;

    public double EachSemitone { get; init; } = 0.2;

    /// <summary>For each string that goes up, which drifts more and may break.</summary>
    public double GoingUp { get; init; } = 0.2;

    public double CapoMove { get; init; } = 0.4;

    /// <summary>0 when nothing changes; both settings have as many strings.</summary>
    public double Between(GuitarSetting from, GuitarSetting to) =>
        to.Tuning.ChangeFrom(from.Tuning).Where(c => c != 0).Sum(c => EachString + EachSemitone * Math.Abs(c) + (c > 0 ? GoingUp : 0))
        + (from.Capo == to.Capo ? 0 : CapoMove);
}
