using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Form;
using Harkbook.Listening.Evaluation;
using Harkbook.Music.Songs;

namespace Harkbook.Training.Hands;

/// <summary>
/// Looks for the numbers of forms by chance: small steps from the best so far, kept where borders and labels come out better on the mean and
/// sections not too many or too few.
/// </summary>
internal sealed class FormFit
{
    private const int Steps = 150;

    private readonly List<(BarSound Sound, ImmutableArray<FormSpan> Truth)> songs = [];

    public void Add(Hearing hearing, Song truth)
    {
        var clock = new SongClock(truth);
        var (spans, bar) = (ImmutableArray.CreateBuilder<FormSpan>(), 1);
        foreach (var section in truth.Sections)
        {
            spans.Add(new(clock.TimeOf(bar).Value, clock.TimeOf(bar + section.Bars.Length).Value, FormScores.LabelOf(section.Name)));
            bar += section.Bars.Length;
        }
        songs.Add((BarSound.Of(hearing.Evidence.Colour, hearing.Beats, hearing.Notes, hearing.Lines), spans.ToImmutable()));
    }

    public JsonObject Fit(TextWriter output)
    {
        var (random, best) = (new Random(1), FormModel.Shipped);
        var score = Score(best);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"before {score:0.0000}"));
        for (var step = 0; step < Steps; step++)
        {
            var size = step % 3 == 0 ? 0.6 : 0.2;
            double Near(double value) => random.Next(3) == 0 ? value * Math.Exp(size * (2 * random.NextDouble() - 1)) : value;
            double Added(double value) => random.Next(3) == 0 ? Math.Max(0, value + size * (2 * random.NextDouble() - 1)) : value;
            var next = new FormModel(Near(best.Colour), Near(best.Texture), Near(best.Repeats), Near(best.Holds), Near(best.Changes), Added(best.Section),
                [.. best.Lengths.Select(Added)], Math.Clamp(random.Next(3) == 0 ? best.Alike + 0.1 * size * (2 * random.NextDouble() - 1) : best.Alike, 0.3, 0.98));
            if (Score(next) is var found && found > score)
                (best, score) = (next, found);
        }
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"after {score:0.0000}"));
        return Written(best);
    }

    private double Score(FormModel model) => songs.Average(s =>
    {
        var heard = new FormEstimator(model).Read(s.Sound, []);
        var scores = FormScores.Of([.. heard.Select(h => new FormSpan(h.Start.Value, h.End.Value, h.Label))], s.Truth).ToArray();
        return scores.Length == 0 ? 0 : scores.Take(3).Average(m => m.Value) - 0.1 * Math.Abs(Math.Log(scores[^1].Value));
    });

    private static JsonObject Written(FormModel m) => new()
    {
        ["colour"] = Short(m.Colour),
        ["texture"] = Short(m.Texture),
        ["repeats"] = Short(m.Repeats),
        ["holds"] = Short(m.Holds),
        ["changes"] = Short(m.Changes),
        ["section"] = Short(m.Section),
        ["lengths"] = new JsonArray([.. m.Lengths.Select(l => JsonValue.Create(Short(l)))]),
        ["alike"] = Short(m.Alike),
    };

    private static double Short(double value) => Math.Round(value, 4);
}
