using Harkbook.Jobs.Files;
using System.CommandLine;
using System.Globalization;
using System.Text;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;

namespace Harkbook.App.Commands;

internal static class RebarCommand
{
    public static Command Create()
    {
        var song = Arguments.Song();
        var undo = new Option<bool>("--undo")
        {
            Description = "Give back the song as it was before the last command that wrote it (rebar, start --again, taps, check --take, names), byte for byte",
        };
        var bars = new BarOptions();
        var command = new Command("rebar",
            "Bar a song anew: half or double tempo, another meter, bars a beat later; everything stays at its time in the recording") { song, undo };
        bars.AddTo(command);
        command.SetAction(async (parsed, ct) =>
        {
            var path = parsed.GetRequiredValue(song);
            if (parsed.GetValue(undo))
                return bars.AreGiven(parsed) ? throw new UsageException("--undo takes back the last change and no other option; give it alone.")
                    : await UndoAsync(SongFolder.Locate(path), ct);
            if (!bars.AreGiven(parsed))
                throw new UsageException("say what to change: --tempo half, --meter 3/4, --later 1, --bar-one 0:12.4, or --undo.");
            var opened = SongOpening.Open(path, withHints: false);
            await ChangeAsync(opened, document => bars.Read(parsed, document), ct);
            return 0;
        });
        return command;
    }

    private static async Task ChangeAsync(SongFolder opened, Func<SongDocument, BarChange> read, CancellationToken ct)
    {
        var (now, files) = (File.ReadAllBytes(opened.SongPath), new EarlierFiles(opened.SongPath, TimeProvider.System));
        var document = SongText.Parse(File.ReadAllText(opened.SongPath), opened.SongPath);
        var meter = opened.Song.Meter.Value;
        var (change, made) = Guarded(opened.SongPath, () => read(document) is var asked ? (asked.On(meter), SongRebarring.Of(document, asked)) : default);
        if (files.Last() is { } kept && kept.Text.IsBefore(now) && Earlier(kept) is { } before && change.Undoes(kept.Text, meter, before))
        {
            await files.GiveBackAsync(kept, ct);
            Console.Out.WriteLine($"{Output.Shown(opened.SongPath)}: this leads back to the song before '{kept.Text.What}', so it is that file again, byte "
                + "for byte.");
            return;
        }
        var after = SongText.Parse(made.Text, opened.SongPath).Song!;
        if (after == document.Song)
        {
            Console.Out.WriteLine($"{Output.Shown(opened.SongPath)}: the bars are drawn so already; nothing was changed.");
            return;
        }
        var keptAt = await files.ReplaceAsync(now, Encoding.UTF8.GetBytes(made.Text), change.Kept, ct);
        Console.Out.WriteLine($"{Output.Shown(opened.SongPath)}: {Bars(opened.Song)} became {Bars(after)}; everything stayed at its time in the recording.");
        foreach (var remark in made.Remarks)
            Console.Out.WriteLine("  " + remark);
        Console.Out.WriteLine(Output.WayBack(keptAt, opened.SongPath));
    }

    /// <summary>Turns what can't be barred so into a message about the song.</summary>
    public static T Guarded<T>(string path, Func<T> rebar)
    {
        try
        {
            return rebar();
        }
        catch (RebarException e)
        {
            throw new UserException($"{path}: {e.Message} The file was not touched.");
        }
    }

    private static async Task<int> UndoAsync(string path, CancellationToken ct)
    {
        var files = new EarlierFiles(path, TimeProvider.System);
        if (files.Last() is not { } kept)
            throw new UserException($"{path}: no earlier text of this song is kept beside it, so there is nothing to undo.");
        if (!kept.Text.IsBefore(File.ReadAllBytes(path)))
            throw new UserException($"{path}: the song was edited since '{kept.Text.What}' on {kept.Text.On:yyyy-MM-dd}, and undoing would lose that, so it "
                + $"was not touched. {Instead(kept)}The song as it was is {kept.Path}.");
        await files.GiveBackAsync(kept, ct);
        Console.Out.WriteLine($"{Output.Shown(path)}: as it was before '{kept.Text.What}', byte for byte.");
        return 0;
    }

    /// <summary>The change that leads back and keeps what was edited.</summary>
    private static string Instead((string Path, EarlierText Text) kept) =>
        BarChange.After(kept.Text) is { } change && Earlier(kept) is { } before
            ? $"To change the bars back and keep the edits: harkbook rebar … {change.Inverse(before.Meter.Value)}. "
            : "";

    private static Song? Earlier((string Path, EarlierText Text) kept) =>
        SongText.Parse(new StreamReader(new MemoryStream(kept.Text.Bytes.ToArray())).ReadToEnd(), kept.Path).Song;

    private static string Bars(Song song) =>
        string.Create(CultureInfo.InvariantCulture,
            $"{song.Bars.Count()} {(song.Bars.Count() == 1 ? "bar" : "bars")} of {song.Meter.Value} at {song.Tempo.Value:0.##}");
}
