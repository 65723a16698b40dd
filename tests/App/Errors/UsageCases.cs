namespace Harkbook.App.Tests.Errors;

/// <summary>Command lines that make no sense.</summary>
internal static class UsageCases
{
    public static ErrorCase[] All { get; } =
    [
        Line("no command"),
        Line("no such command", "lisen", "a.wav"),
        Line("no such option", "listen", "--jam", "a.jams", "take.wav"),
        Line("no such option", "listen", "--jam"),
        Line("something is missing", "listen"),
        Line("something is missing", "check"),
        Line("something is missing", "eval"),
        Line("a word too many", "start", "a.wav", "b.wav"),
        Line("a word too many", "check", "a.wav", "b.jams", "c"),
        Line("an option without its value", "shapes", "D", "--capo"),
        Line("no number", "shapes", "D", "--capo", "two"),
        Line("no number", "audition", "song", "--speed", "slow"),
        Line("nothing between the quotes", "name", ""),
        Line("nothing between the quotes", "harps", " "),
        Line("no chord symbol", "shapes", "H7"),
        Line("no chord symbol", "shapes", "N.C."),
        Line("no tuning", "shapes", "D", "--tuning", "D2 H2"),
        Line("no tuning", "name", "x02210", "--tuning", ""),
        Line("no key", "name", "x02210", "--key", "H major"),
        Line("no capo fret", "shapes", "D", "--capo", "13"),
        Line("no capo fret", "name", "x02210", "--capo", "-1"),
        Line("no count", "shapes", "D", "--count", "0"),
        Line("no count", "name", "x02210", "--count", "-1"),
        Line("no count", "harps", "D5", "--count", "0"),
        Line("a shape of too few or many strings", "name", "x0221"),
        Line("neither shape nor note", "name", "C", "E", "Q"),
        Line("no pitch", "harps", "D5", "E"),
        Line("a chord that can't be played", "shapes", "C13", "--tuning", "C2 C3"),
        Line("no layout", "harps", "D5", "--layout", "richtr"),
        Line("no layout", "holes", "G", "--layout", ""),
        Line("no harmonica", "holes", "H"),
        Line("no harmonica", "holes", "low"),
        Line("nothing between the quotes", "holes", ""),
        Line("notes have no sections", "harps", "D5", "--section", "Verse"),
        new("no such section", s => s.File("harp.hark", "title Far\nharp C\nsection A\nharp | +4 |\n"), "harps", "harp.hark", "--section", "B"),
        Line("no title", "start", "take.wav", "--title", " "),
        Line("no such speed", "audition", "song", "--speed", "3"),
        Line("no such bars", "audition", "song", "--bars", "2-99"),
        Line("no such count-in", "audition", "song", "--count-in", "9"),
        Line("no such part of an audition", "audition", "song", "--parts", "drum"),
        Line("no such part of a recording", "listen", "take.wav", "--on", "centre"),
        Line("no such part of a recording", "audition", "song", "--on", "band:9"),
        Line("a part goes over its recording", "audition", "take.wav", "--on", "held", "--to", "take.wav"),
        Line("no such kind of sound file", "audition", "song", "--to", "a.doc"),
        Line("no such part of a lesson", "publish", "song", "--only", "poster"),
    ];

    private static ErrorCase Line(string when, params string[] arguments) => new(when, s => s.Take().Song(), arguments);
}
