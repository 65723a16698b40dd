using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Form;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.ReferencePitch;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators;

/// <summary>No estimator asks for more of a sound at once than a stretch, however long the sound is: that keeps memory flat for an hour of it.</summary>
public class StretchesTests
{
    private const double LongestSeconds = 25;

    private static readonly ImmutableArray<HeardBeat> everySecond = [.. Enumerable.Range(0, 40)
        .Select(k => new HeardBeat(Seconds.FromSeconds(k), 1 + k % 4, 1))];

    private static readonly Dictionary<string, Action<ISound, CancellationToken>> estimators = new()
    {
        ["reference pitch"] = (sound, ct) => new ReferencePitchEstimator().Estimate(sound, ct),
        ["beats"] = (sound, ct) => new BeatEstimator().Estimate(sound, ct),
        ["notes"] = (sound, ct) => NoteScan.NotesOf(sound, Hertz.A440, ct),
        ["second instrument"] = (sound, ct) => new LineEstimator().Estimate(sound, Hertz.A440, [], null, ct),
        ["form"] = (sound, ct) => new FormEstimator().Estimate(sound, Hertz.A440, everySecond, ct),
    };

    public static TheoryData<string> Names { get; } = [.. estimators.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void AnEstimatorReadsAStretchAtATime(string name)
    {
        var plucked = new Plucked(22_050, 40);
        for (var k = 0; k < 39; k++)
            plucked.Note(45 + 5 * k % 24, k, 0.9);
        var sound = new Guarded(plucked.Signal);
        estimators[name](sound, TestContext.Current.CancellationToken);
        Assert.True(sound.WasRead);
    }

    /// <summary>A sound that refuses to be read in stretches longer than <see cref="LongestSeconds"/>.</summary>
    private sealed class Guarded(Signal sound) : ISound
    {
        public bool WasRead { get; private set; }

        public SampleRate Rate => sound.Rate;

        public int ChannelCount => sound.ChannelCount;

        public int Length => sound.Length;

        public void Read(int channel, int start, Span<float> into)
        {
            Assert.True(into.Length <= LongestSeconds * Rate.Hertz, $"{into.Length} samples were asked for at once");
            WasRead = true;
            sound.Read(channel, start, into);
        }
    }
}
