using Harkbook.Training.Tunes;

if (args is not [var folder, var file])
{
    Console.Error.WriteLine("Usage: FOLDER models/tune.json\nFOLDER holds NAME.hark with a tune, its NAME.wav, and NAME.heard as training/Checks makes it.");
    return 1;
}
var examples = TuneExamples.Of(folder).ToList();
FittedTune.Write(file, examples, DateOnly.FromDateTime(DateTime.Today));
return 0;
