namespace Harkbook.Music.Instruments.Hands;

/// <summary>One finger in its place: a string, or as a barre neighbours on one fret.</summary>
/// <param name="FromNut">The fret as counted from the nut, where the finger stands.</param>
/// <param name="Presses">Strings that the finger presses; fewer than it lies across where another finger presses one between.</param>
internal readonly record struct FingerStop(int Finger, int FromNut, int LowString, int HighString, int Presses)
{
    public bool IsBarre => Presses > 1;

    /// <summary>The stops of fingers that are known, lowest fret first.</summary>
    public static FingerStop[] Of(PressedString[] pressed, IReadOnlyList<int> fingers) =>
    [
        .. from p in pressed
           where fingers[p.StringIndex] > 0
           group p.StringIndex by (p.FromNut, Finger: fingers[p.StringIndex]) into stop
           orderby stop.Key
           select new FingerStop(stop.Key.Finger, stop.Key.FromNut, stop.Min(), stop.Max(), stop.Count()),
    ];
}
