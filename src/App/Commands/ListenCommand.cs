using Harkbook.Jobs.Files;
using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Reading;

namespace Harkbook.App.Commands;

internal static class ListenCommand
{
    public static Command Create()
    {
        var recording = Arguments.Recording();
        var jams = new Option<string?>("--jams") { Description = "Write what was heard as JAMS 0.3 to this file", HelpName = "FILE" };
        var json = new Option<bool>("--json") { Description = "Print what was heard as JSON" };
        var afresh = new Option<bool>("--afresh") { Description = "Listen again even if this recording was heard before" };
        var on = RecordingPart.Option("Listen only to a part of it");
        var claims = new ClaimOptions();
        var command = new Command("listen",
            "Say what is heard in a recording: pitch, tuning, tempo, bars, key, chords, sections, what plays or sings with the guitar")
        {
            recording, jams, json, afresh, on,
        };
        claims.AddTo(command);
        command.SetAction(async (parsed, ct) =>
        {
            using var place = parsed.GetValue(jams) is { } wanted ? OutputPlace.ForFile(wanted, "--jams") : null;
            var part = RecordingPart.Read(parsed.GetValue(on));
            claims.Require(parsed);
            var heard = await WatchedEars.HearAsync(parsed.GetRequiredValue(recording), parsed.GetValue(afresh), ct, part, about: claims.Pitch(parsed));
            var hearing = Reader.Again(heard, claims.Read(parsed, heard), ct);
            if (parsed.GetValue(jams) is { } path)
                await Output.WriteTextAsync(path, JamsWriter.Write(hearing), ct);
            if (parsed.GetValue(json))
                Console.Out.WriteLine(HearingJson.Write(hearing, rounded: true));
            else
                Console.Out.Write(HearingReport.Write(hearing));
            return 0;
        });
        return command;
    }
}
