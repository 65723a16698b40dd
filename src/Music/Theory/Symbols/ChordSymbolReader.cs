namespace Harkbook.Music.Theory.Symbols;

/// <summary>
/// Reads one chord symbol: root, kind, then changes in any order, then a bass note. What the kind holds, less the degrees
/// left out and the plain degrees that an altered one replaces, with the altered and added ones, is the chord.
/// </summary>
internal sealed class ChordSymbolReader(string text)
{
    private const string AfterKind = "an altered degree (b5, #9), add, no, sus, / with a bass note, or the end";
    private readonly TextCursor cursor = new(Plain(text));
    private readonly List<Interval> altered = [], added = [], suspended = [];
    private readonly List<int> omitted = [];

    public ReadProblem Problem => cursor.Problem;

    public Chord? Read()
    {
        if (text is "N.C." or "N.C" or "NC" or "n.c.")
            return Chord.None;
        if (cursor.TakeName() is not { } root)
        {
            cursor.Fail("a root: a letter A to G in capitals, with # or b, or N.C. for no chord", 0);
            return null;
        }
        var start = cursor.Index;
        foreach (var (spelling, quality) in ChordCore.Spellings)
        {
            cursor.Index = start;
            if (cursor.Take(spelling) && ReadChanges() && ReadBass(root) is { } bass)
                return Chord.Of(root, Changed(quality), bass);
        }
        return null;
    }

    private bool ReadChanges()
    {
        altered.Clear();
        added.Clear();
        suspended.Clear();
        omitted.Clear();
        while (!cursor.AtEnd && (cursor.Next != '/' || IsDegreeNext))
            if (!(cursor.Next == '(' ? ReadBrackets() : ReadChange(inBrackets: cursor.Take("/"))))
                return false;
        return true;
    }

    // In C7/9 the slash stands before a degree, not before a bass note.
    private bool IsDegreeNext => cursor.Second is '#' or 'b' or '+' or '-' || char.IsAsciiDigit(cursor.Second);

    private bool ReadBrackets()
    {
        cursor.Take("(");
        while (!cursor.Take(")"))
        {
            if (!ReadChange(inBrackets: true))
                return false;
            while (cursor.Next is ',' or ' ' or '/')
                cursor.Index++;
        }
        return true;
    }

    private bool ReadChange(bool inBrackets)
    {
        if (cursor.Take("sus"))
            return ReadSuspension();
        if (cursor.Take("add"))
            return ReadDegree(added, cursor.TakeAlteration());
        if (cursor.TakeAny("no", "omit"))
            return ReadOmission();
        if (cursor.TakeAny("maj7", "M7"))
            return Into(added, 7, 0);
        if (cursor.Next is '#' or 'b' or '+' or '-')
            return ReadAltered();
        return inBrackets && char.IsAsciiDigit(cursor.Next)
            ? ReadDegree(added, 0)
            : cursor.Fail(inBrackets ? "a degree (b9, #11, 13), add, no, or a closing bracket" : AfterKind);
    }

    private bool ReadSuspension()
    {
        if (cursor.TakeAny("24", "42"))
            return Into(suspended, 2, 0) && Into(suspended, 4, 0);
        return Into(suspended, cursor.Take("2") ? 2 : cursor.Take("4") ? 4 : 4, 0);
    }

    private bool ReadOmission()
    {
        cursor.TakeRun(' ');
        if (cursor.TakeNumber(15) is not { } degree)
            return cursor.Fail("the degree to leave out, as in no3");
        cursor.TakeAny("rd", "th", "nd");
        omitted.Add(degree);
        return true;
    }

    private bool ReadAltered()
    {
        var alteration = cursor.TakeAlteration();
        return alteration == 1 && !char.IsAsciiDigit(cursor.Next) && cursor.JustTook('+')
            ? Into(altered, 5, 1)
            : ReadDegree(altered, alteration);
    }

    private bool ReadDegree(List<Interval> list, int alteration) =>
        Math.Abs(alteration) <= 3 && cursor.TakeNumber(15) is { } degree
            ? Into(list, degree, alteration)
            : cursor.Fail("a degree from 1 to 15, as in b9 or add11");

    private static bool Into(List<Interval> list, int degree, int alteration)
    {
        list.Add(Interval.FromDegree(degree, alteration));
        return true;
    }

    private PitchName? ReadBass(PitchName root)
    {
        if (cursor.AtEnd)
            return root;
        if (cursor.Take("/") && cursor.TakeName() is { } bass && cursor.AtEnd)
            return bass;
        cursor.Fail(cursor.AtEnd || cursor.JustTook('/') ? "a bass note: a letter A to G with # or b" : "the end, after the bass note");
        return null;
    }

    private ChordQuality Changed(ChordQuality core)
    {
        var held = core.Intervals.Where(i => suspended.Count == 0 || i.Degree.Degree != 3).Concat(suspended);
        var kept = held.Where(i => !omitted.Contains(i.Degree.Degree) && !(i.Degree.Alteration == 0 && altered.Any(a => a.Steps == i.Steps)));
        return ChordQuality.Of(kept.Concat(altered).Concat(added));
    }

    /// <summary>One way to write each sign; every sign stays one character, so places stay true.</summary>
    private static string Plain(string text) =>
        text.Replace('♯', '#').Replace('♭', 'b').Replace('º', '°').Replace('△', 'Δ').Replace('∆', 'Δ').Replace('^', 'Δ').Replace('Ø', 'ø').Replace('−', '-')
            .Replace('–', '-');
}
