using Harkbook.Jobs.Files;
using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;

namespace Harkbook.App.Commands;

internal static class NamesCommand
{
    public static Command Create()
    {
        var song = Arguments.Song();
        var whose = new Argument<string>("whose") { Description = "hand: as the shapes are called without the capo; sound: what sounds" };
        var write = new Option<bool>("--write") { Description = "Write the song file; without it, what would change is shown" };
        var command = new Command("names", "Write a capo song's chords, shapes, keys and tune under the hand's names, or under those of what sounds")
        {
            song, whose, write,
        };
        command.SetAction(async (parsed, ct) =>
        {
            var hand = parsed.GetRequiredValue(whose) switch
            {
                "hand" => true,
                "sound" => false,
                var other => throw new UsageException($"{other}: give hand, for the names of the shapes, or sound, for what sounds."),
            };
            var opened = SongOpening.Open(parsed.GetRequiredValue(song), withHints: false);
            var before = SongChange.DocumentOf(opened);
            var after = before.WithNames(hand)
                ?? throw new UserException($"{opened.SongPath}: the song has no capo over all strings, so each chord has one name; there is nothing to "
                    + "change.");
            await SongChange.ShowAsync(before, after, parsed.GetValue(write), $"names {(hand ? "hand" : "sound")} --write", ct);
            return 0;
        });
        return command;
    }
}
