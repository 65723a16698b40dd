namespace Harkbook.Listening.Checking;

/// <summary>How strict a check is. Supports are 0–1.</summary>
public sealed record CheckOptions
{
    public static CheckOptions Usual { get; } = new();

    /// <summary>From this support on a claim is supported.</summary>
    public double SupportedFrom { get; init; } = 0.5;

    /// <summary>Below this support a claim is contradicted.</summary>
    public double ContradictedBelow { get; init; } = 0.2;

    /// <summary>
    /// From this support on a note is supported, and below half of it contradicted. Lower than for other claims: a claim
    /// tells the check where to look, and on the demo's recordings no note claimed a semitone off reached even 0.2.
    /// </summary>
    public double NoteSupportedFrom { get; init; } = 0.25;

    /// <summary>How far a claimed onset may lie from the heard one, in seconds. Wider than a scorer's 50 ms, since a strum alone lasts that long.</summary>
    public double OnsetWindow { get; init; } = 0.07;

    /// <summary>How far a bar's start may lie from a heard beat, in seconds.</summary>
    public double BarWindow { get; init; } = 0.07;

    public Verdict JudgeNote(double support) => Between(support, NoteSupportedFrom / 2, NoteSupportedFrom);

    public Verdict Judge(double support) => Between(support, ContradictedBelow, SupportedFrom);

    private static Verdict Between(double support, double low, double high) =>
        support >= high ? Verdict.Supported : support < low ? Verdict.Contradicted : Verdict.Doubtful;
}
