using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading;
using Harkbook.Music.Songs;
using Harkbook.Training.Hands;

if (args is ["make", var made, var first, var count])
{
    await ThrownFolder.MakeAsync(made, int.Parse(first, CultureInfo.InvariantCulture), int.Parse(count, CultureInfo.InvariantCulture));
    return 0;
}
if (args is not ["fit", var into, .. { Length: > 0 } folders])
{
    Console.Error.WriteLine("""
        Usage: make FOLDER FIRST-SEED COUNT
               fit PLAYING.json FOLDER ...   (folders of NAME.wav, NAME.evidence and the true NAME.hark)
        """);
    return 1;
}
var seen = new Seen();
foreach (var kept in folders.SelectMany(f => Directory.GetFiles(f, "*.evidence")).Order(StringComparer.Ordinal))
{
    var truth = SongText.Parse(File.ReadAllText(Path.ChangeExtension(kept, ".hark")), kept).Song!;
    var recording = await RecordingReader.InspectAsync(Path.ChangeExtension(kept, ".wav"), default);
    var claims = SongClaims.Of(truth) with { Chords = [], Keys = [], Borders = [] };
    var hearing = Reader.Read(recording, EvidenceFile.Read(kept), claims);
    seen.Add(Path.GetFileNameWithoutExtension(kept), hearing, truth);
    Console.WriteLine($"{kept}: {seen.Notes.Count} notes, {seen.Places.Count} places, {seen.Joins.Count} joins");
}
var file = JsonNode.Parse(File.ReadAllText(into))!;
seen.Report(Console.Out);
seen.Write(file["numbers"]!.AsObject());
file["date"] = DateOnly.FromDateTime(DateTime.Today).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
File.WriteAllText(into, file.ToJsonString(new JsonSerializerOptions { WriteIndented = true, IndentSize = 2 }) + "\n");
return 0;
