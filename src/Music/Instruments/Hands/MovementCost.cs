using Harkbook.Music.Instruments.Shapes;

namespace Harkbook.Music.Instruments.Hands;

/// <summary>What changing from one shape to the next costs: the hand's shift and every finger that must find a new place.</summary>
public static class MovementCost
{
    private const double PerFret = 0.12;
    private const double NewPlace = 0.15;

    /// <summary>0 for shapes on different numbers of strings, which no hand changes between.</summary>
    public static double Between(Shape previous, Shape next) => Between(previous, [.. next.Frets.Select(f => f ?? -1)]);

    internal static double Between(Shape previous, int[] frets)
    {
        if (previous.Frets.Length != frets.Length)
            return 0;
        var placed = 0;
        var first = int.MaxValue;
        for (var i = 0; i < frets.Length; i++)
        {
            if (frets[i] <= 0)
                continue;
            first = Math.Min(first, frets[i]);
            placed += previous.Frets[i] == frets[i] ? 0 : 1;
        }
        var shift = first == int.MaxValue || previous.FirstFret is not { } before ? 0 : Math.Abs(first - before);
        return PerFret * shift + NewPlace * placed;
    }
}
