using Harkbook.Jobs.Files;
using System.CommandLine;
using System.Globalization;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Making;
using Harkbook.App.Messages;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Sounding;

namespace Harkbook.App.Commands;

internal static class AuditionCommand
{
    public static Command Create()
    {
        var song = new Argument<string>("song") { Description = "A song file (.hark) or the folder that holds it; with --on also a recording" };
        var to = new Option<string?>("--to")
        {
            Description = "The sound file to write: .wav, or with ffmpeg .m4a, .mp3, .flac, .opus; without it, audition.wav beside the song",
            HelpName = "FILE",
        };
        var against = new Option<bool>("--against") { Description = "Hear the claims on the left and the recording on the right" };
        var speed = new Option<double>("--speed")
        {
            Description = "0.25 to 2 times the record's speed; the pitch stays",
            HelpName = "TIMES",
            DefaultValueFactory = _ => 1,
        };
        var passage = new PassageOptions("to hear");
        var countIn = new Option<int>("--count-in") { Description = "Bars of clicks before the first", HelpName = "BARS", DefaultValueFactory = _ => 0 };
        var parts = new Option<string[]>("--parts")
        {
            Description = "guitar, harp, sung, tune, click; without it, all but the click",
            HelpName = "PARTS",
            AllowMultipleArgumentsPerToken = true,
        };
        var on = RecordingPart.Option("Hear only a part of the recording, in place of the claims or, with --against, against them");
        var command = new Command("audition", "Sound a song's claims with our own strings and reeds: the ear is the last judge") { song, to, against, speed,
            passage.Section, passage.Bars, countIn, parts, on };
        command.SetAction(async (parsed, ct) =>
        {
            var pace = parsed.GetValue(speed);
            if (pace is not (>= 0.25 and <= 2))
                throw new UsageException(string.Create(CultureInfo.InvariantCulture, $"--speed {pace}: give 0.25 to 2."));
            if (parsed.GetValue(countIn) is < 0 or > 8)
                throw new UsageException($"--count-in {parsed.GetValue(countIn)}: give 0 to 8 bars.");
            var wantedParts = ReadParts(parsed.GetValue(parts) ?? []);
            if (parsed.GetValue(to) is { } wanted)
                RequireFormat(wanted);
            var part = RecordingPart.Read(parsed.GetValue(on));
            if (part is not null && !parsed.GetValue(against))
                return await PartAudition.RunAsync(parsed.GetRequiredValue(song), part, pace, parsed.GetValue(to), ct);
            var opened = SongOpening.Open(parsed.GetRequiredValue(song)).RequireBars();
            var heard = passage.Read(parsed, opened.Song);
            var path = parsed.GetValue(to) ?? Path.Combine(opened.Folder, "audition.wav");
            using var place = OutputPlace.ForFile(path, "--to");
            if (parsed.GetValue(against))
                opened.WarnOfAnother(await RecordingReader.InspectAsync(opened.RequireRecording(), ct));
            var options = new AuditionOptions
            {
                Parts = wantedParts,
                CountInBars = parsed.GetValue(countIn),
                Speed = pace,
                FirstBar = heard?.First,
                LastBar = heard?.Last,
                Against = parsed.GetValue(against) ? await PartAudition.ReadAsync(opened.RequireRecording(), part, pace, ct) : null,
            };
            using var sound = await Task.Run(() => Audition.Store(opened.Song, options, ct), ct);
            await SoundFile.WriteAsync(path, sound, ct);
            Console.Out.WriteLine($"{path}: about -18 LUFS; start with the volume low.");
            return 0;
        });
        return command;
    }

    private static void RequireFormat(string path)
    {
        if (!Path.GetExtension(path).Equals(".wav", StringComparison.OrdinalIgnoreCase) && AudioEncoder.FormatOf(path) is null)
            throw new UsageException($"--to {path}: this kind of sound file isn't written. Name it .wav, .m4a, .mp3, .flac or .opus.");
    }

    private static AuditionParts ReadParts(string[] words)
    {
        var wanted = words.SelectMany(w => w.Split(',', StringSplitOptions.RemoveEmptyEntries)).ToArray();
        return wanted.Length == 0
            ? AuditionOptions.Usual
            : wanted.Aggregate(AuditionParts.None, (parts, word) => parts | word switch
            {
                "guitar" => AuditionParts.Guitar,
                "harp" => AuditionParts.Harp,
                "sung" => AuditionParts.Sung,
                "tune" => AuditionParts.Tune,
                "click" => AuditionParts.Click,
                _ => throw new UsageException($"--parts {word}: the parts are guitar, harp, sung, tune and click."),
            });
    }
}
