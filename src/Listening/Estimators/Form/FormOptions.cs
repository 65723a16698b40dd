namespace Harkbook.Listening.Estimators.Form;

/// <summary>How finely the form is divided.</summary>
public sealed record FormOptions
{
    /// <summary>No section is shorter than this many bars, but for an ending that was not heard before; 2 to 16, 4 unless told.</summary>
    public int FewestBars { get; init; } = 4;

    /// <summary>How alike two sections must be to share a label: 0 (anything) to 1 (the same sound), 0.75 unless told.</summary>
    public double Alike { get; init; } = 0.75;

    internal void Require()
    {
        if (FewestBars is < 2 or > 16)
            throw new ArgumentOutOfRangeException(nameof(FewestBars), FewestBars, "The shortest section has 2 to 16 bars.");
        if (Alike is not (>= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(Alike), Alike, "Likeness lies between 0 and 1.");
    }
}
