namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>A guitar while it is weighed.</summary>
/// <param name="Fit">How its open strings suit what was played: the same for all that sound alike.</param>
/// <param name="Alike">All that sound alike.</param>
internal sealed record WeighedGuitar(Guitar Guitar, TuningFit Fit, IReadOnlyList<Guitar> Alike)
{
    /// <summary>How its strings suit their stiffness; null until that was asked.</summary>
    public StringFit? Strings { get; set; }

    /// <summary>The log of how likely it is, up to a constant.</summary>
    public double Score { get; set; }
}
