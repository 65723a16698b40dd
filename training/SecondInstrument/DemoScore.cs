using System.Globalization;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Demo;
using Harkbook.Listening;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Proposing;
using Harkbook.Music.Songs;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Scores the lines that are heard on the demo's recordings, and where a voice's rhythm falls on the grid on which it is proposed.</summary>
internal static class DemoScore
{
    public static async Task<int> RunAsync(string folder, string songbook)
    {
        foreach (var source in Directory.GetDirectories(songbook).Order(StringComparer.Ordinal))
        {
            var name = Path.GetFileName(source);
            var song = SongText.Parse(File.ReadAllText(Path.Combine(source, name + ".hark")), name).Song!;
            var take = DemoRecording.Render(song, DemoPerformance.Parse(File.ReadAllText(Path.Combine(source, "performance.json"))));
            var path = Path.Combine(folder, name + ".wav");
            WaveFile.Write(path, take.Sound);
            var hearing = await new Listener().ListenAsync(await RecordingReader.InspectAsync(path), null, default);
            Console.WriteLine($"{name}: {PieceScore.Heard(hearing.Lines)}");
            foreach (var line in DemoAnnotation.Of(take).Lines!.Value)
                Tell(hearing, line);
            Sung(hearing, take.Truth);
        }
        return 0;
    }

    private static void Tell(Hearing hearing, AnnotatedLine line)
    {
        var heard = hearing.Lines.Of(line.Kind!.Value);
        var scores = LineScores.Of(heard, hearing.ReferencePitch.Best, line);
        Console.WriteLine($"  {line.Kind}, {line.Notes.Length} notes, {heard?.Notes.Length ?? 0} heard: {string.Join(", ", scores.Select(s => $"{s.Measure} {Number(s.Value)}"))}");
    }

    /// <summary>Of the proposed places the share where a syllable truly starts, and of the syllables those that are found.</summary>
    private static void Sung(Hearing hearing, DemoTruth truth)
    {
        if (hearing.Lines.Of(LineKind.Voice) is not { } voice)
            return;
        var grid = new RhythmGrid(BeatAxis.Of(hearing.Beats, hearing.Meter.Best, hearing.Tempo.Best), hearing.Meter.Best.IsCompound, []);
        var syllables = truth.Notes.Where(n => n.Part == DemoPart.Voice).Select(n => grid.Step(n.Onset)).ToArray();
        var places = voice.Notes.Select(n => grid.Step(n.Onset)).Distinct().ToArray();
        var right = places.Intersect(syllables).Count();
        Console.WriteLine($"  sung rhythm: {Number(right / (double)places.Length)} of {places.Length} places right, {Number(syllables.Count(places.Contains) / (double)syllables.Length)} of {syllables.Length} syllables found");
    }

    private static string Number(double value) => value.ToString("0.000", CultureInfo.InvariantCulture);
}
