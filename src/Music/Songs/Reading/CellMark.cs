namespace Harkbook.Music.Songs.Reading;

/// <summary>The "?" behind a cell that marks it as heard, a percent behind it. A bare "?" behind a sung word is the word's own.</summary>
internal static class CellMark
{
    /// <summary>Where the cell's mark starts; -1 where it has none.</summary>
    public static int At(string cell, bool isSung)
    {
        var mark = cell.LastIndexOf('?');
        var marks = mark > 0 && !cell.AsSpan(mark + 1).ContainsAnyExceptInRange('0', '9') && !Quoted.Is(cell);
        return marks && !(isSung && mark == cell.Length - 1 && IsWord(cell[..mark])) ? mark : -1;
    }

    private static bool IsWord(string text) => !Quoted.Is(text) && text is not ("x" or "." or "_");
}
