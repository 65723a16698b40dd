using System.CommandLine;
using System.Globalization;
using Harkbook.App.Messages;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.App.Choices;

/// <summary>The options that say how a song's beats are counted and where its bars fall.</summary>
internal sealed class BarOptions
{
    private readonly Option<string?> tempo = new("--tempo")
    {
        Description = "The level that is felt: half, double, third, triple, 2/3 or 3/2 of the tempo, or the felt tempo itself where it is one of these",
        HelpName = "LEVEL",
    };
    private readonly Option<string?> meter = new("--meter") { Description = "The meter, as 4/4 or 12/8", HelpName = "METER" };
    private readonly Option<string?> later = new("--later")
    {
        Description = "By how many of the tempo's beats before this change every bar starts later, as 1 or 1/2",
        HelpName = "BEATS",
    };
    private readonly Option<string?> earlier = new("--earlier") { Description = "The same, earlier", HelpName = "BEATS" };
    private readonly Option<string?> barOne = new("--bar-one") { Description = "A time in the recording: the nearest beat becomes the first of a bar",
        HelpName = "TIME" };

    public void AddTo(Command command)
    {
        foreach (var option in new Option[] { tempo, meter, later, earlier, barOne })
            command.Add(option);
    }

    /// <summary>Only those that say by how many beats bars start later.</summary>
    public void AddShiftTo(Command command)
    {
        command.Add(later);
        command.Add(earlier);
    }

    public bool AreGiven(ParseResult parsed) => new[] { tempo, meter, later, earlier, barOne }.Any(o => parsed.GetValue(o) is not null);

    /// <summary>The change that is asked for, on a song without mistakes.</summary>
    public BarChange Read(ParseResult parsed, SongDocument document)
    {
        var level = parsed.GetValue(tempo) is { } text ? ReadLevel(text, document.Song!.Tempo.Value) : TempoLevel.Same;
        var asked = parsed.GetValue(meter) is { } name ? ReadMeter(name) : (Meter?)null;
        return new(level, asked, ReadLater(parsed, document, level, asked));
    }

    private static TempoLevel ReadLevel(string text, double now)
    {
        if (TempoLevel.TryParse(text, out var level))
            return level;
        var levels = string.Join(", ", TempoLevel.Named.Select(n => string.Create(CultureInfo.InvariantCulture, $"{n.Name} {now * n.Level.Ratio:0.#}")));
        return double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var felt) && felt > 0
            && TempoLevel.Between(now, felt) is { } found
            ? found
            : throw new UsageException(string.Create(CultureInfo.InvariantCulture,
                $"--tempo {text}: the tempo is {now:0.#}, and its levels are {levels}. To correct the tempo itself, write it in the song file."));
    }

    private static Meter ReadMeter(string text) =>
        Meter.TryParse(text, out var read) ? read : throw new UsageException($"--meter {text}: write a meter as 4/4, 3/4 or 12/8.");

    private Beats ReadLater(ParseResult parsed, SongDocument document, TempoLevel level, Meter? asked)
    {
        var given = new[] { later, earlier, barOne }.Where(o => parsed.GetValue(o) is not null).ToList();
        if (given.Count == 0)
            return Beats.Zero;
        if (given.Count > 1)
            throw new UsageException($"{given[0].Name} and {given[1].Name} both say where bars start; give one of them.");
        var text = parsed.GetValue(given[0])!;
        if (given[0] == barOne)
            return TimeText.TryRead(text, out var time)
                ? SongRebarring.LaterFor(document, level, asked, time)
                : throw new UsageException($"--bar-one {text}: give a time in the recording, as in 0:12.4.");
        return BarChange.TryBeats(text, out var beats)
            ? given[0] == later ? beats : beats * -1
            : throw new UsageException($"{given[0].Name} {text}: give beats, as in 1, 2 or 1/2.");
    }
}
