using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Beats;

public class BarCheckTests
{
    // Lerdahl and Jackendoff 1983, metrical preference rules 5 and 6: low notes and new harmonies make strong beats.
    [Theory]
    [InlineData(3, 0)]
    [InlineData(4, 0)]
    [InlineData(4, 1)]
    [InlineData(4, 2)]
    public void BassesAndNewChordsStartBarsWhereTheNetworkSaysNothing(int beatsPerBar, int claimed)
    {
        var beats = Accompaniment.Steady(100, 12 * beatsPerBar + 1);
        var evidence = Activations.Of(beats, _ => false);

        var placed = BarCheck.Apply(Decoded(beats, k => BarModel.Downbeats[1] + (k + claimed) % 3), Bands(Accompaniment.Play(beats, beatsPerBar, 2)), evidence, [], TestContext.Current.CancellationToken);

        Assert.All(placed.Select((b, k) => (b, k)), x => Assert.Equal(x.k % beatsPerBar + 1, BarModel.PositionOf(x.b.Place)));
    }

    [Fact]
    public void APersonsDownbeatOutweighsTheClues()
    {
        var beats = Accompaniment.Steady(100, 49);
        var held = new BeatAnchor(Seconds.FromSeconds(Math.Round(beats[18] * PulseEvidence.FrameRate) / PulseEvidence.FrameRate), 1);

        var placed = BarCheck.Apply(Decoded(beats, _ => 0), Bands(Accompaniment.Play(beats, 4, 2)), Activations.Of(beats, k => k % 4 == 0), [held], TestContext.Current.CancellationToken);

        Assert.Equal(1, BarModel.PositionOf(placed[18].Place));
    }

    [Fact]
    public void ABarIsCutShortWhereThatFitsAndNotForOneOddBeat()
    {
        int[] places = [5, 6, 7, 8, 5, 6, 7, 8, 5, 6, 5, 6, 7, 8, 5, 6, 7, 8, 5, 6, 7, 8];
        var scores = places.Select(p => Enumerable.Range(0, BarModel.Places).Select(q => q == p ? 2f : 0).ToArray()).ToArray();
        (scores[2][7], scores[2][5]) = (0, 3);

        Assert.Equal(places, BarCheck.BestRow(scores));
    }

    [Fact]
    public void TooFewBeatsKeepTheirPlaces()
    {
        var beats = Accompaniment.Steady(100, 5);
        var decoded = Decoded(beats, k => BarModel.Downbeats[2] + k % 4);

        Assert.Equal(decoded, BarCheck.Apply(decoded, Bands(Accompaniment.Play(beats, 4, 2)), Activations.Of(beats, _ => false), [], TestContext.Current.CancellationToken));
    }

    private static PulseBands Bands(ISound sound) => new(sound.At(PulseBands.Rate));

    private static List<DecodedBeat> Decoded(double[] beats, Func<int, int> place) =>
        [.. beats.Select((t, k) => new DecodedBeat((int)Math.Round(t * PulseEvidence.FrameRate), 30, place(k)))];
}
