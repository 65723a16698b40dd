using System.CommandLine;
using System.Globalization;
using Harkbook.App.Messages;
using Harkbook.Music.Songs;

namespace Harkbook.App.Choices;

/// <summary>The options --section and --bars: the bars that a command is about.</summary>
/// <param name="what">What is done with the bars, as in "to practise".</param>
internal sealed class PassageOptions(string what)
{
    public Option<string?> Section { get; } = new("--section") { Description = $"The section {what}: its name, or so much of it that it can't be another's",
        HelpName = "NAME" };

    public Option<string?> Bars { get; } = new("--bars") { Description = $"The bars {what}: 5 or 5-8", HelpName = "FIRST-LAST" };

    /// <summary>Their numbers in the song; null where neither option is given.</summary>
    public (int First, int Last)? Read(ParseResult parsed, Song song) => (parsed.GetValue(Section), parsed.GetValue(Bars)) switch
    {
        (null, null) => null,
        (null, { } bars) => ReadBars(bars, song.Bars.Count()),
        ({ } section, null) => OfSection(section, song),
        _ => throw new UsageException($"--section and --bars both say which bars; give one of them."),
    };

    private static (int First, int Last) OfSection(string given, Song song)
    {
        var sections = SectionChoice.Called(given, [.. song.Sections.Where(s => !s.Bars.IsEmpty)]);
        var (first, last) = (sections[0].Bars[0].Number, sections[0].Bars[^1].Number);
        if (sections.Count > 1)
            Console.Error.WriteLine($"harkbook: {sections.Count} sections are called {sections[0].Name}; this is the first, bars {first} to {last}. --bars "
                + "names any other.");
        return (first, last);
    }

    private static (int First, int Last) ReadBars(string text, int count)
    {
        var ends = text.Split('-');
        if (ends.Length is 1 or 2 && int.TryParse(ends[0], NumberStyles.None, CultureInfo.InvariantCulture, out var first)
            && int.TryParse(ends[^1], NumberStyles.None, CultureInfo.InvariantCulture, out var last) && first >= 1 && last >= first && last <= count)
            return (first, last);
        throw new UsageException($"--bars {text}: the song has bars 1 to {count}; give one, or a first and a last as in 5-8.");
    }
}
