using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;

namespace Harkbook.Examples;

/// <summary>Listens to a recording and prints what it heard: the key, then each chord with its time and how sure it is.</summary>
public static class PrintChords
{
    public static async Task RunAsync(string path, TextWriter output, CancellationToken ct = default)
    {
        var recording = await RecordingReader.InspectAsync(path, ct);
        var hearing = await new Listener().ListenAsync(recording, progress: null, ct);

        output.WriteLine($"{hearing.Keys[0].Key.Best}, {hearing.Tempo.Best:0} beats a minute, A4 = {hearing.ReferencePitch.Best.Value:0.0} Hz");
        foreach (var span in hearing.Chords)
            output.WriteLine($"{span.Start.Value,7:0.00}  {span.Chord.Best,-8} {span.Chord.Confidence:0%}");
    }
}
