using System.Globalization;
using Harkbook.Music.Theory;
using Harkbook.Training.Checks;

if (args is not ["make" or "fit", var folder, var first, var count, var font, .. var rest])
{
    Console.Error.WriteLine("Usage: make FOLDER FIRST-SEED COUNT FONT.sf2\n       fit FOLDER FIRST-SEED COUNT FONT.sf2 WEIGHERS.json");
    return 1;
}
if (args[0] == "make")
    await AnnotatedPieces.HearAsync(Path.Combine(folder, "pieces"));
var rendering = new Rendering(folder, font);
var (examples, minutes) = (new List<Example>(), new Dictionary<string, double>());
var (from, songs) = (int.Parse(first, CultureInfo.InvariantCulture), int.Parse(count, CultureInfo.InvariantCulture));
for (var seed = from; seed < from + songs; seed++)
{
    var (song, hearing) = await rendering.GetAsync(seed);
    Console.WriteLine($"{seed}: {song.Bars.Count()} bars, {hearing.Recording.Length.Value:0.0} s, {hearing.Notes.Length} notes heard");
    if (args[0] == "make")
        continue;
    if (hearing.Notes.Length < 2 * hearing.Recording.Length.Value)
        continue;
    minutes[$"{seed}"] = hearing.Recording.Length.Value / 60;
    examples.AddRange(new SongExamples(song, hearing, $"{seed}", seed).All());
}
if (args[0] == "fit" && Directory.Exists(Path.Combine(folder, "pieces")))
{
    foreach (var (piece, annotation, hearing) in AnnotatedPieces.Of(Path.Combine(folder, "pieces")))
    {
        minutes[piece] = hearing.Recording.Length.Value / 60;
        examples.AddRange(AnnotatedPieces.Examples(piece, annotation, hearing));
    }
}
foreach (var weigher in examples.GroupBy(e => e.Weigher))
    FitReport.Write(weigher.Key, [.. weigher], minutes);
if (rest is [var file])
    WeightFile.Write(file, examples.GroupBy(e => e.Weigher), $"{count} made songs from seed {first} on, every other one played by "
        + $"{Path.GetFileNameWithoutExtension(font)}, those whose strings came out silent left out; the pieces in FOLDER/pieces (10 of bench/pieces, seed 501)",
        DateOnly.FromDateTime(DateTime.Today));
return 0;
