namespace Harkbook.Music.Theory;

/// <summary>Where a short text (a chord symbol, a label, an interval) stops making sense, and what was expected there.</summary>
/// <param name="Index">Characters before the place, 0 for the first.</param>
/// <param name="Expected">What would be right there, in plain words.</param>
public readonly record struct ReadProblem(int Index, string Expected)
{
    /// <summary>A sentence that shows the text, the place and what was expected.</summary>
    public string Describe(string text, string what) =>
        Index < text.Length
            ? $"'{text}' is not {what}: at character {Index + 1}, '{text[Index]}', expected {Expected}."
            : $"'{text}' is not {what}: it ends where {Expected} was expected.";
}
