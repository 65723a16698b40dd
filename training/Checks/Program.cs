using System.Globalization;
using Harkbook.Training.Checks;

return args switch
{
    ["make", var folder, var first, var count, var font] =>
        await MakeAsync(folder, int.Parse(first, CultureInfo.InvariantCulture), int.Parse(count, CultureInfo.InvariantCulture), font),
    ["fit", var folder] => Fit(folder, null),
    ["fit", var folder, var file] => Fit(folder, file),
    _ => Usage(),
};

static async Task<int> MakeAsync(string folder, int first, int count, string font)
{
    var rendering = new Rendering(folder, font);
    for (var seed = first; seed < first + count; seed++)
        await rendering.MakeAsync(seed);
    await AnnotatedPieces.HearAsync(Path.Combine(folder, "annotated"));
    return 0;
}

static int Fit(string folder, string? file)
{
    var (examples, minutes) = (new List<Example>(), new Dictionary<string, double>());
    foreach (var (piece, song, hearing) in new Rendering(folder, "").Made())
    {
        // Strings that came out silent teach nothing.
        if (hearing.Notes.Length < 2 * hearing.Recording.Length.Value)
            continue;
        minutes[piece] = hearing.Recording.Length.Value / 60;
        examples.AddRange(new SongExamples(song, hearing, piece, int.Parse(piece, CultureInfo.InvariantCulture)).All());
    }
    foreach (var (piece, annotation, hearing) in AnnotatedPieces.Of(Path.Combine(folder, "annotated")))
    {
        minutes[piece] = hearing.Recording.Length.Value / 60;
        examples.AddRange(AnnotatedPieces.Examples(piece, annotation, hearing));
    }
    foreach (var weigher in examples.GroupBy(e => e.Weigher))
        FitReport.Write(weigher.Key, [.. weigher], minutes);
    if (file is not null)
        WeightFile.Write(file, examples.GroupBy(e => e.Weigher), $"{minutes.Count} recordings: made songs by our own strings and by a font, and annotated "
            + "pieces, some in a room, as training/README.md tells", DateOnly.FromDateTime(DateTime.Today));
    return 0;
}

static int Usage()
{
    Console.Error.WriteLine("""
        make FOLDER FIRST-SEED COUNT FONT.sf2
            makes up songs, plays and hears them; hears what lies in FOLDER/annotated
        fit FOLDER [WEIGHERS.json]
            plants errors in all that is heard there, and fits what each feature is worth
        """);
    return 1;
}
