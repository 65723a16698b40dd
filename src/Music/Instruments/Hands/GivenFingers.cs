using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Hands;

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
            .. Contradictions(shape, capo).Select(f => f.Sentence),
            .. FingeringSolver.BehindCapo(pressed, frets, capo) is { } fault ? [fault] : Array.Empty<string>(),
            .. BarreFaults(frets, fingers, pressed),
            .. PairFaults(fingers, pressed, hand),
        ];
        var barres = BarreRules.Barres(frets, fingers);
        var effort = FingeringEffort.Of(frets, pressed, FingerStop.Of(pressed, fingers), hand);
        return new(new(shape.Fingers, barres, effort), [.. faults.Distinct()]);
    }

    public static IEnumerable<FingerFault> Contradictions(Shape shape, Capo capo)
    {
        var pressed = PressedString.Of(shape.Frets.AsSpan(), capo);
        return Enumerable.Range(0, shape.Frets.Length).Select(i => StringFault(shape, i)).OfType<FingerFault>()
            .Concat(FingerStop.Of(pressed, shape.Fingers).GroupBy(s => s.Finger).Where(g => g.Count() > 1).Select(g => TwoFrets([.. g], capo)))
            .OrderBy(f => f.StringIndex);
    }

    private static FingerFault? StringFault(Shape shape, int i) => (shape.Frets[i] > 0, shape.Fingers[i] > 0) switch
    {
        (true, false) => new(i, $"string {shape.Frets.Length - i} is pressed at fret {shape.Frets[i]} but no finger is given for it"),
        (false, true) => new(i, $"finger {shape.Fingers[i]} is given for string {shape.Frets.Length - i}, which is "
            + $"{(shape.Frets[i] is null ? "muted" : "open")}"),
        _ => null,
    };

    /// <summary>Frets count from the capo, as the shape's do; from the nut where the capo stops only some strings, for a finger is at one
    /// place of the neck.</summary>
    private static FingerFault TwoFrets(FingerStop[] places, Capo capo)
    {
        var frets = string.Join(" and ", places.Select(p => p.FromNut - (capo.IsPartial ? 0 : capo.Fret)));
        return new(places[^1].LowString, $"finger {places[0].Finger} is on two frets, {frets}{(capo.IsPartial ? " from the nut" : "")}");
    }

    private static IEnumerable<string> BarreFaults(int?[] frets, int[] fingers, PressedString[] pressed)
    {
        foreach (var group in pressed.Where(p => fingers[p.StringIndex] > 0).GroupBy(p => fingers[p.StringIndex]))
        {
            var (first, last) = (Array.IndexOf(pressed, group.First()), Array.IndexOf(pressed, group.Last()));
            if (group.Select(p => p.FromNut).Distinct().Count() == 1 && BarreRules.Fault(frets, pressed, group.Key, first, last) is { } fault)
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
