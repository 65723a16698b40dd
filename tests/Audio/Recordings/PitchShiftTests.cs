using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Tests.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Recordings;

public sealed class PitchShiftTests : IDisposable
{
    private const int Rate = 44_100;
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    // Equal temperament: A4 at 440 Hz is 391.995 Hz two semitones down and 554.365 Hz four up. The tone starts one second in and must stay there.
    [Theory]
    [InlineData(-2, 391.995)]
    [InlineData(4, 554.365)]
    public async Task PitchMovesAndTimesStay(int semitones, double hertz)
    {
        Need.Ffmpeg();
        var samples = new float[3 * Rate];
        Tones.Sine(440, Rate, 2 * Rate, 0.5).CopyTo(samples, Rate);
        await AudioEncoder.WriteAsync(folder.File("a.flac"), Tones.Mono(Rate, samples), AudioFormat.Flac, Ct);
        await PitchShift.WriteAsync(folder.File("a.flac"), Cents.FromCents(100 * semitones), folder.File("b.flac"), Ct);

        var moved = await RecordingReader.InspectAsync(folder.File("b.flac"), Ct);
        var sound = (await RecordingReader.ReadAsync(moved, SampleRate.FromHertz(Rate), true, null, Ct)).Channels[0].ToArray();
        Assert.Equal(3, moved.Length.Value, 0.02);
        Assert.Equal(hertz, Crossings(sound[(3 * Rate / 2)..(5 * Rate / 2)]), 1.5);
        Assert.Equal(1, Array.FindIndex(sound, s => Math.Abs(s) > 0.25f) / (double)Rate, 0.015);
    }

    /// <summary>Rising zero crossings in a second.</summary>
    private static int Crossings(float[] second) => second.Zip(second.Skip(1)).Count(p => p.First < 0 && p.Second >= 0);

    private static CancellationToken Ct => TestContext.Current.CancellationToken;
}
