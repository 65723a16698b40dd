using System.Collections.Immutable;
using System.Text.Json;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking.Weighing;

/// <summary>
/// What each feature of one kind of claim is worth: a logistic regression. models/weighers.json, and for a tune's notes models/tune.json, say on what it
/// was fitted, and how. Its log-odds are those of a claim that is as often wrong as right; how rare errors are is for the calibration to say.
/// </summary>
internal sealed class WeigherModel
{
    private static readonly Lazy<ImmutableDictionary<string, WeigherModel>> Shipped =
        new(() => new[] { "weighers", "tune" }.SelectMany(Read).ToImmutableDictionary(w => w.Key, w => w.Value));

    private readonly double bias;
    private readonly ImmutableDictionary<string, double> weights;

    public WeigherModel(double bias, ImmutableDictionary<string, double> weights) => (this.bias, this.weights) = (bias, weights);

    /// <summary>The one that comes with the program.</summary>
    public static WeigherModel Of(string kind) => Shipped.Value.TryGetValue(kind, out var model) ? model
        : throw new InvalidOperationException($"Neither models/weighers.json nor models/tune.json holds weights for {kind}; fit them as they say.");

    /// <param name="features">Just those that the weights were fitted to.</param>
    public double LogOdds(ReadOnlySpan<Feature> features)
    {
        if (features.Length != weights.Count)
            throw new ArgumentException($"{features.Length} features are weighed by {weights.Count} weights, fitted to others.", nameof(features));
        var sum = bias;
        foreach (var feature in features)
            sum += weights[feature.Name] * feature.Value;
        return sum;
    }

    private static IEnumerable<KeyValuePair<string, WeigherModel>> Read(string model)
    {
        var name = $"Harkbook.Listening.Models.{model}.json";
        using var stream = typeof(WeigherModel).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The assembly lacks {name}; was it built without models/{model}.json?");
        var file = JsonSerializer.Deserialize<ModelFile>(stream, new JsonSerializerOptions(JsonSerializerDefaults.Web))
            ?? throw new InvalidOperationException($"{name} is empty.");
        return [.. file.Weighers.Select(w => KeyValuePair.Create(w.Key, new WeigherModel(w.Value.Bias, w.Value.Weights)))];
    }

    private sealed record ModelFile(ImmutableDictionary<string, Fitted> Weighers);

    private sealed record Fitted(double Bias, ImmutableDictionary<string, double> Weights);
}
