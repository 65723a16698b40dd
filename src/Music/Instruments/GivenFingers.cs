using System.Collections.Immutable;

namespace Harkbook.Music.Instruments;

/// <summary>Weighs fingers that a person wrote down against the rules that the solver keeps.</summary>
internal static class GivenFingers
{
    public static FingeringAnswer Check(Shape shape, Capo capo, Hand hand)
    {
        var frets = shape.Frets.ToArray();
        var pressed = PressedString.Of(frets, capo);
        int[] fingers = [.. shape.Fingers];
        IEnumerable<string> faults =
        [
            .. Enumerable.Range(0, frets.Length).Select(i => StringFault(frets, fingers, i)).OfType<string>(),
            .. FingeringSolver.BehindCapo(pressed, frets, capo) is { } fault ? [fault] : Array.Empty<string>(),
            .. BarreFaults(frets, fingers, pressed),
            .. PairFaults(fingers, pressed, hand),
        ];
        var barres = BarreRules.Barres(frets, fingers);
        var effort = FingeringEffort.Of(frets, pressed, FingerStop.Of(pressed, fingers), hand);
        return new(new(shape.Fingers, barres, effort), [.. faults.Distinct()]);
    }

    private static string? StringFault(int?[] frets, int[] fingers, int i) => (frets[i] > 0, fingers[i] > 0) switch
    {
        (true, false) => $"string {frets.Length - i} is pressed at fret {frets[i]} but no finger is given for it",
        (false, true) => $"finger {fingers[i]} is given for string {frets.Length - i}, which is {(frets[i] is null ? "muted" : "open")}",
        _ => null,
    };

    private static IEnumerable<string> BarreFaults(int?[] frets, int[] fingers, PressedString[] pressed)
    {
        foreach (var group in pressed.Where(p => fingers[p.StringIndex] > 0).GroupBy(p => fingers[p.StringIndex]))
        {
            var (first, last) = (Array.IndexOf(pressed, group.First()), Array.IndexOf(pressed, group.Last()));
            if (group.Select(p => p.FromNut).Distinct().Count() > 1)
                yield return $"finger {group.Key} is on two frets";
            else if (BarreRules.Fault(frets, pressed, group.Key, first, last) is { } fault)
                yield return fault;
        }
    }

    private static IEnumerable<string> PairFaults(int[] fingers, PressedString[] pressed, Hand hand) =>
        from a in pressed
        from b in pressed
        let lower = fingers[a.StringIndex]
        let higher = fingers[b.StringIndex]
        where lower > 0 && lower < higher
        let fault = PairFault(lower, a.FromNut, higher, b.FromNut, hand)
        where fault is not null
        select fault;

    private static string? PairFault(int lower, int lowerFret, int higher, int higherFret, Hand hand)
    {
        if (lowerFret > higherFret)
            return $"finger {lower} is on a higher fret than finger {higher}";
        var reach = hand.Distance(lowerFret, higherFret);
        return reach > hand.ReachBetween(lower, higher)
            ? $"fingers {lower} and {higher} would have to spread {reach.Millimetres:0} mm"
            : null;
    }
}
