using System.Globalization;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Chords;

// Against what PyTorch computes (Fixtures/Chords/README.md).
public class ChordNetworkTests
{
    private const int Frames = 400;
    private const int Pitches = 61;

    private static readonly Seconds Hop = Seconds.FromSeconds(256 / 22_050.0);

    [Fact]
    public void RowsAreThoseOfTheTraining()
    {
        var rows = ChordInput.Of(Evidence(), Spans(), TestContext.Current.CancellationToken);

        // The training's posteriors are exact; ours are kept within 1/126, and a value of a row may hang on a few of them.
        AssertNear(Fixture("rows.csv"), rows, 2.5 / 126);
    }

    [Fact]
    public void OutputsAreThoseOfTheTraining()
    {
        var rows = Fixture("rows.csv");
        var (chords, bass, keys, change) = NetworkChordWeigher.Run(rows);
        float[] Of(float[] values, int span) => values[(span * values.Length / rows.Length)..((span + 1) * values.Length / rows.Length)];

        AssertNear(Fixture("outputs.csv"), [.. rows.Select((_, i) => (float[])[.. Of(chords, i), .. Of(bass, i), .. Of(keys, i), .. Of(change, i)])], 1e-3);
    }

    private static ChordSpan[] Spans()
    {
        double[] starts = [0, 0.5, 1.02, 1.5, 1.75, 2.5, 3.02, 3.5, 4.0, (Hop * Frames).Value];
        SpanPlace[] places = [SpanPlace.Downbeat, SpanPlace.Beat, SpanPlace.Beat, SpanPlace.Beat, SpanPlace.Between, SpanPlace.Downbeat, SpanPlace.Unknown,
            SpanPlace.Beat, SpanPlace.Between];
        return [.. places.Select((p, i) => new ChordSpan(Seconds.FromSeconds(starts[i]), Seconds.FromSeconds(starts[i + 1]), p))];
    }

    private static NotePosteriorgram Evidence()
    {
        var (sounding, onset) = (new float[Frames, Pitches], new float[Frames, Pitches]);
        for (var f = 0; f < Frames; f++)
        {
            for (var p = 0; p < Pitches; p++)
            {
                if ((p * 7 + f / 60) % 5 != 0)
                    continue;
                sounding[f, p] = (float)Math.Pow(Math.Max(0, Math.Sin(0.05 * f * (1 + p % 5) + 1.3 * p)), 2);
                onset[f, p] = (float)Math.Pow(Math.Max(0, Math.Sin(0.11 * f + 0.7 * p)), 8);
            }
        }
        return new(Hop, 36, PosteriorMatrix.Of(sounding), PosteriorMatrix.Of(onset));
    }

    private static void AssertNear(float[][] expected, float[][] actual, double tolerance)
    {
        Assert.Equal(expected.Length, actual.Length);
        Assert.All(expected.Zip(actual), pair =>
        {
            Assert.Equal(pair.First.Length, pair.Second.Length);
            Assert.All(pair.First.Zip(pair.Second), v => Assert.Equal(v.First, v.Second, tolerance));
        });
    }

    private static float[][] Fixture(string name) =>
        [.. File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Fixtures", "Chords", name))
            .Select(l => l.Split(',').Select(v => float.Parse(v, CultureInfo.InvariantCulture)).ToArray())];
}
