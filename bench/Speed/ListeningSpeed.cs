using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Listening;
using Harkbook.Units;

namespace Harkbook.Bench.Speed;

/// <summary>How much processor time listening takes, step by step, against the recording's length and against ffmpeg decoding the same file.</summary>
internal static class ListeningSpeed
{
    private const int Rounds = 3;

    public static async Task<IReadOnlyList<Row>> MeasureAsync(string path)
    {
        var recording = await RecordingReader.InspectAsync(path);
        var length = recording.Length.Value;
        var times = Clocked.Medians(Rounds, () => Decode(path), () => Clocked.Time(() => Read(recording)));
        var first = Clocked.Time(() => Listen(recording, null));
        var steps = new StepClock();
        var again = Clocked.Time(() => Listen(recording, steps));
        return
        [
            Row("ffmpeg decodes it to one channel at 22.05 kHz", times[0]),
            Row("Harkbook reads it so (ffmpeg's own time left out)", times[1]),
            Row("listening, first time in a process", first),
            Row($"listening, again: {again / times[0]:0} times ffmpeg's decoding", again),
            .. steps.Steps.Select(s => Row($"of which {s.Step}", s.Seconds)),
            new("most memory that the process held", $"{Process.GetCurrentProcess().PeakWorkingSet64 / 1048576.0:0} MB", null),
        ];

        Row Row(string what, double seconds) => new(what, $"{seconds:0.00} s", length / seconds);
    }

    private static Signal Read(Recording recording) =>
        RecordingReader.ReadAsync(recording, SampleRate.FromHertz(22_050), mono: true).GetAwaiter().GetResult();

    private static Hearing Listen(Recording recording, IProgress<Progress>? progress) =>
        new Listener().ListenAsync(recording, progress, CancellationToken.None).GetAwaiter().GetResult();

    /// <summary>ffmpeg's processor time as it tells it itself: "bench: utime=0.312s stime=0.020s rtime=0.401s".</summary>
    private static double Decode(string path)
    {
        using var process = Process.Start(new ProcessStartInfo("ffmpeg", ["-hide_banner", "-nostdin", "-benchmark", "-i", path, "-ac", "1", "-ar", "22050", "-f", "null", "-"]) { RedirectStandardError = true })!;
        var told = Regex.Match(process.StandardError.ReadToEnd(), @"utime=([\d.]+)s stime=([\d.]+)s");
        process.WaitForExit();
        return told.Success
            ? double.Parse(told.Groups[1].Value, CultureInfo.InvariantCulture) + double.Parse(told.Groups[2].Value, CultureInfo.InvariantCulture)
            : throw new InvalidOperationException($"{path}: ffmpeg can't decode it, or doesn't tell how long that took.");
    }

    private sealed class StepClock : IProgress<Progress>
    {
        private readonly List<(string Step, double At)> starts = [];

        public IEnumerable<(string Step, double Seconds)> Steps =>
            starts.Zip(starts.Skip(1), (a, b) => (a.Step, Seconds: b.At - a.At)).Where(s => s.Seconds > 0.05);

        public void Report(Progress value)
        {
            if (starts.Count == 0 || starts[^1].Step != value.Step)
                starts.Add((value.Step, Clocked.Now));
        }
    }
}
