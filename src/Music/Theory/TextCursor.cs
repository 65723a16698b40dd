namespace Harkbook.Music.Theory;

/// <summary>A place in a short text being read. It remembers the furthest place that a reading failed and what was expected there.</summary>
internal sealed class TextCursor(string text)
{
    private int furthest = -1;
    private string expected = "";

    public int Index { get; set; }

    public bool AtEnd => Index >= text.Length;

    /// <summary>The next character, or NUL at the end.</summary>
    public char Next => AtEnd ? '\0' : text[Index];

    /// <summary>The character after the next, or NUL.</summary>
    public char Second => Index + 1 < text.Length ? text[Index + 1] : '\0';

    public ReadProblem Problem => new(Math.Max(furthest, 0), expected);

    public bool StartsWith(string word) => string.CompareOrdinal(text, Index, word, 0, word.Length) == 0;

    public bool Take(string word)
    {
        if (!StartsWith(word))
            return false;
        Index += word.Length;
        return true;
    }

    public bool TakeAny(params ReadOnlySpan<string> words)
    {
        foreach (var word in words)
            if (Take(word))
                return true;
        return false;
    }

    /// <summary>Takes a run of one character; gives its length.</summary>
    public int TakeRun(char c)
    {
        var start = Index;
        while (Next == c)
            Index++;
        return Index - start;
    }

    /// <summary>Whether the character just before this place is the one given.</summary>
    public bool JustTook(char c) => Index > 0 && text[Index - 1] == c;

    /// <summary>Takes sharps (# or +) or flats (b or -): how many, negative for flats; 0 where none stands.</summary>
    public int TakeAlteration() => Next is '#' or '+' ? TakeRun(Next) : Next is 'b' or '-' ? -TakeRun(Next) : 0;

    /// <summary>Takes a number from 1 to <paramref name="highest"/>, two digits where they fit; null where none stands.</summary>
    public int? TakeNumber(int highest)
    {
        if (Next is < '1' or > '9')
            return null;
        var number = Next - '0';
        Index++;
        if (char.IsAsciiDigit(Next) && 10 * number + Next - '0' <= highest)
        {
            number = 10 * number + Next - '0';
            Index++;
        }
        return number <= highest ? number : null;
    }

    /// <summary>Takes a letter A–G with up to three sharps or flats; null where none stands.</summary>
    public PitchName? TakeName()
    {
        if (Next is < 'A' or > 'G')
            return null;
        var letter = Next;
        Index++;
        var sharps = TakeRun('#');
        var alteration = sharps > 0 ? sharps : -TakeRun('b');
        return Math.Abs(alteration) <= 3 ? PitchName.FromLetter(letter, alteration) : null;
    }

    /// <summary>Notes what was expected here (or at a place given); always false, so that readers can return it.</summary>
    public bool Fail(string what, int? at = null)
    {
        var place = at ?? Index;
        if (place > furthest)
            (furthest, expected) = (place, what);
        return false;
    }
}
