using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Listening.Interchange;

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
        var (tuning, capo) = (KnownGuitar.TuningOption(), KnownGuitar.CapoOption());
        var command = new Command("listen", "Say what is heard in a recording: pitch, tuning, tempo, bars, key, chords, sections, what plays or sings with the guitar") { recording, tuning, capo, jams, json, afresh, on };
        command.SetAction(async (parsed, ct) =>
        {
            using var place = parsed.GetValue(jams) is { } wanted ? OutputPlace.ForFile(wanted, "--jams") : null;
            var part = RecordingPart.Read(parsed.GetValue(on));
            var guitar = KnownGuitar.Read(parsed.GetValue(tuning), parsed.GetValue(capo));
            var hearing = guitar.Apply(await Ears.HearAsync(parsed.GetRequiredValue(recording), parsed.GetValue(afresh), ct, part), ct);
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
