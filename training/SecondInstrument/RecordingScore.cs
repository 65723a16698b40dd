using System.Collections.Immutable;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Scores what is heard of second instruments in a folder of WAV files at A440, each with its annotation as JAMS beside it.</summary>
internal static class RecordingScore
{
    public static int Run(string folder, CellStore cells)
    {
        var sheets = new List<ImmutableArray<Measured>>();
        foreach (var jams in Directory.GetFiles(folder, "*.jams").Order())
        {
            var name = Path.GetFileNameWithoutExtension(jams);
            var heard = LineEstimator.Of(cells.Get(name, WaveFile.Read(Path.ChangeExtension(jams, ".wav"))), []);
            sheets.Add([.. LineScores.Of(heard, Hertz.A440, AnnotationFile.Read(jams))]);
            Console.WriteLine($"{name} heard {PieceScore.Heard(heard)}  {PieceScore.Told(sheets[^1])}");
        }
        Console.WriteLine($"mean of {sheets.Count}: {PieceScore.Told(Evaluator.Mean(sheets))}");
        return 0;
    }
}
