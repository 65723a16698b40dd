namespace Harkbook.Listening.Evidence;

/// <summary>
/// The values of a string's stiffness that are weighed: log10 of B, which places the partials of a stiff string at
/// n·f₁·√(1 + B·n²)/√(1 + B) (H. Fletcher, JASA 36, 1964). From 10^−5.5, as good as none, to 10^−3.2, a thick string stopped high.
/// </summary>
internal static class StiffnessGrid
{
    public const int Count = 47;
    public const double First = -5.5, Step = 0.05;

    public static double At(int step) => First + Step * step;

    /// <summary>Where a value lies on the grid, between its steps; may lie outside it.</summary>
    public static double PlaceOf(double logB) => (logB - First) / Step;

    /// <summary>Partial n of a stiff string, as a multiple of the first.</summary>
    public static double Multiple(int n, double b) => n * Math.Sqrt((1 + b * n * n) / (1 + b));
}
