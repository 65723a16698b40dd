// Listens to every NAME.wav of a folder as Harkbook does and writes, for each span that could hold a chord, what the chord
// network looks at beside the chord that NAME.jams says was there: one line a span in FOLDER/spans.csv.
using System.Globalization;
using Harkbook.Audio.Recordings;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Theory;
using Harkbook.Units;

var folder = args[0];
using var output = new StreamWriter(Path.Combine(folder, "spans.csv"));
output.NewLine = "\n";
foreach (var path in Directory.GetFiles(folder, "*.wav").Order(StringComparer.Ordinal))
{
    var truth = JamsReader.Read(Path.ChangeExtension(path, ".jams")).Chords;
    var recording = await RecordingReader.InspectAsync(path, default);
    var mono = await RecordingReader.ReadAsync(recording, SampleRate.FromHertz(22_050), mono: true, progress: null, default);
    var beats = new BeatEstimator().Estimate(mono).Beats;
    var evidence = Estimator().Estimate(mono, Hertz.A440, null, default).Evidence;
    var spans = ChordSpan.Of(evidence, beats, new());
    var rows = ChordInput.Of(evidence, spans, ChordSpan.Contents(evidence, spans, default), default);
    for (var i = 0; i < spans.Count; i++)
    {
        var (heard, share) = truth
            .Select(c => (c.Label, Share: (Math.Min(c.End, spans[i].End.Value) - Math.Max(c.Start, spans[i].Start.Value)) / (spans[i].End - spans[i].Start).Value))
            .DefaultIfEmpty((Label: "N", Share: 0)).MaxBy(c => c.Share);
        var chord = HarteLabel.Read(heard);
        var label = share < 0.5 || chord.IsNone ? "N" : string.Create(CultureInfo.InvariantCulture,
            $"{chord.Root.PitchClass}/{(chord.Bass.PitchClass - chord.Root.PitchClass + 12) % 12}/{string.Join(' ', chord.Quality.PitchClasses.Order())}");
        output.WriteLine($"{Path.GetFileNameWithoutExtension(path)},{label},{Math.Clamp(share, 0, 1).ToString("0.00", CultureInfo.InvariantCulture)},{string.Join(',', rows[i].Select(v => v.ToString("0.####", CultureInfo.InvariantCulture)))}");
    }
    Console.Error.WriteLine($"{Path.GetFileName(path)}: {spans.Count} spans");
}

static INoteEstimator Estimator() => new NetworkNoteEstimator();
