using System.Globalization;

namespace Harkbook.Music.Theory;

/// <summary>Names of intervals (P5, m3, A4), of degrees (b3, #11), and inversion.</summary>
public readonly partial record struct Interval
{
    private const string PerfectSteps = "034";

    public static Interval Unison => default;

    public static Interval Octave { get; } = new(0, 1);

    /// <summary>Wider than an octave.</summary>
    public bool IsCompound => Steps > 7 || (Steps == 7 && Semitones > 12);

    /// <summary>The same interval within an octave: a ninth becomes a second; an octave stays an octave.</summary>
    public Interval Simple
    {
        get
        {
            var simple = this;
            while (simple.IsCompound)
                simple -= Octave;
            return simple;
        }
    }

    /// <summary>What is left of an octave: a major third inverts to a minor sixth. A compound interval is made simple first.</summary>
    public Interval Inverted => Octave - Simple;

    /// <summary>The degree above a root, against the major scale: "b3", "5", "#11".</summary>
    public string DegreeName
    {
        get
        {
            var (degree, alteration) = Degree;
            return string.Create(CultureInfo.InvariantCulture, $"{new string(alteration < 0 ? 'b' : '#', Math.Abs(alteration))}{degree}");
        }
    }

    /// <summary>Reads a degree: "b3", "5", "#11".</summary>
    public static Interval ParseDegree(string text)
    {
        var cursor = new TextCursor(text);
        var alteration = cursor.Next is '#' ? cursor.TakeRun('#') : -cursor.TakeRun('b');
        return cursor.TakeNumber(15) is { } degree && cursor.AtEnd
            ? FromDegree(degree, alteration)
            : throw new FormatException($"'{text}' is not a degree; write a number from 1 to 15 with b or # before it, as in b3 or #11.");
    }

    /// <summary>Reads "P5", "m3", "A4", "dd7"; a "-" in front makes it fall.</summary>
    public static bool TryParse(string? text, out Interval interval)
    {
        interval = default;
        var falls = text?.StartsWith('-') ?? false;
        var body = (falls ? text?[1..] : text) ?? "";
        var letters = body.TakeWhile(char.IsAsciiLetter).Count();
        if (!int.TryParse(body.AsSpan(letters), NumberStyles.None, CultureInfo.InvariantCulture, out var number) || number is < 1 or > 99
            || AlterationOf(body[..letters], IsPerfect(number - 1)) is not { } alteration)
            return false;
        var (octaves, step) = ((number - 1) / 7, (number - 1) % 7);
        interval = FromDegree(step + 1, alteration) + new Interval(0, octaves);
        interval = falls ? -interval : interval;
        return true;
    }

    public static Interval Parse(string text) =>
        TryParse(text, out var interval)
            ? interval
            : throw new FormatException($"'{text}' is not an interval; write P (perfect), M, m, A or d and a number, as in P5, m3 or A4.");

    /// <summary>"P5", "m3", "A4"; a falling interval has "-" in front.</summary>
    public override string ToString()
    {
        if (Steps < 0 || (Steps == 0 && Semitones < 0))
            return "-" + -this;
        var (degree, alteration) = Degree;
        return string.Create(CultureInfo.InvariantCulture, $"{KindOf(alteration, IsPerfect(Steps))}{degree}");
    }

    private static bool IsPerfect(int steps) => PerfectSteps.Contains((char)('0' + steps % 7));

    private static string KindOf(int alteration, bool perfect) => (alteration, perfect) switch
    {
        (0, true) => "P",
        (0, false) => "M",
        (-1, false) => "m",
        ( > 0, _) => new('A', alteration),
        _ => new('d', perfect ? -alteration : -alteration - 1),
    };

    private static int? AlterationOf(string kind, bool perfect) => kind switch
    {
        "P" when perfect => 0,
        "M" when !perfect => 0,
        "m" when !perfect => -1,
        { Length: > 0 } when kind.All(c => c == 'A') => kind.Length,
        { Length: > 0 } when kind.All(c => c == 'd') => perfect ? -kind.Length : -kind.Length - 1,
        _ => null,
    };
}
