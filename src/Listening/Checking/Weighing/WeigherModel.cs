using System.Collections.Immutable;
using System.Text.Json;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking.Weighing;

/// <summary>
/// What each feature of one kind of claim is worth: a logistic regression (models/weighers.json says on what it was fitted, and how). Its log-odds
/// are those of a claim that is as often wrong as right; how rare errors are is for the calibration to say.
/// </summary>
internal sealed class WeigherModel
{
    private static readonly Lazy<ImmutableDictionary<string, WeigherModel>> Shipped = new(ReadShipped);

    private readonly double bias;
    private readonly ImmutableDictionary<string, double> weights;

    public WeigherModel(double bias, ImmutableDictionary<string, double> weights) => (this.bias, this.weights) = (bias, weights);

    /// <summary>The one that comes with the program.</summary>
    public static WeigherModel Of(string kind) => Shipped.Value.TryGetValue(kind, out var model) ? model
        : throw new InvalidOperationException($"models/weighers.json holds no weights for {kind}; fit them as it says.");

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

    private static ImmutableDictionary<string, WeigherModel> ReadShipped()
    {
        const string Name = "Harkbook.Listening.Models.weighers.json";
        using var stream = typeof(WeigherModel).Assembly.GetManifestResourceStream(Name)
            ?? throw new InvalidOperationException($"The assembly lacks {Name}; was it built without models/weighers.json?");
        var file = JsonSerializer.Deserialize<ModelFile>(stream, new JsonSerializerOptions(JsonSerializerDefaults.Web))
            ?? throw new InvalidOperationException($"{Name} is empty.");
        return file.Weighers.ToImmutableDictionary(w => w.Key, w => new WeigherModel(w.Value.Bias, w.Value.Weights));
    }

    private sealed record ModelFile(ImmutableDictionary<string, Fitted> Weighers);

    private sealed record Fitted(double Bias, ImmutableDictionary<string, double> Weights);
}
