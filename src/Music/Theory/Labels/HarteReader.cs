namespace Harkbook.Music.Theory.Labels;

/// <summary>Reads one label: root, then ":" with a shorthand, a list of degrees in brackets or both, then "/" with the bass as a degree.</summary>
internal sealed class HarteReader(string text)
{
    private readonly TextCursor cursor = new(text);
    private readonly List<Interval> added = [], omitted = [];

    public ReadProblem Problem => cursor.Problem;

    public HarteParts? Read()
    {
        if (text is "N" or "X")
            return text == "N" ? HarteParts.None : HarteParts.Unknown;
        if (cursor.TakeName() is not { } root)
        {
            cursor.Fail("a root (A to G with # or b), N for no chord or X for an unknown one", 0);
            return null;
        }
        var shorthand = "maj";
        if (cursor.Take(":") && !ReadKind(out shorthand))
            return null;
        return ReadBass() is { } bass ? new(HarteSound.Chord, root, shorthand, [.. added], [.. omitted], bass) : null;
    }

    private bool ReadKind(out string shorthand)
    {
        shorthand = HarteShorthand.Take(cursor)?.Name ?? "";
        if (cursor.Take("("))
            return ReadList();
        return shorthand.Length > 0 || cursor.Fail("a shorthand such as maj, min7 or sus4, or degrees in brackets");
    }

    private bool ReadList()
    {
        do
        {
            var list = cursor.Take("*") ? omitted : added;
            if (ReadDegree() is not { } degree)
                return false;
            list.Add(degree);
        }
        while (cursor.Take(","));
        return cursor.Take(")") || cursor.Fail("a comma or a closing bracket");
    }

    private Interval? ReadDegree()
    {
        var sharps = cursor.TakeRun('#');
        var alteration = sharps > 0 ? sharps : -cursor.TakeRun('b');
        if (cursor.TakeNumber(13) is { } degree)
            return Interval.FromDegree(degree, alteration);
        cursor.Fail("a degree from 1 to 13, with # or b before it");
        return null;
    }

    private Interval? ReadBass()
    {
        var bass = cursor.Take("/") ? ReadDegree() : Interval.Unison;
        if (bass is null || cursor.AtEnd)
            return bass;
        cursor.Fail("the end, or one of ':', '(' after ':', and '/' in that order");
        return null;
    }
}
