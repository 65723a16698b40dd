using Harkbook.Listening.Estimators;
using Harkbook.Listening.Estimators.Chords;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>
/// How far each thing counts when keys and chords are read together; natural logs and chances. models/harmony.json holds them and says what each
/// is, by which command it was fitted and on what.
/// </summary>
internal sealed record HarmonyWeights
{
    public required SpanWeights Spans { get; init; }

    public required ChordWeights Chords { get; init; }

    public required KeyWeights Keys { get; init; }

    /// <summary>For spans that the trained network weighed.</summary>
    public static HarmonyWeights ForNetwork => Shipped.Value.Network;

    /// <summary>For spans that rules weighed.</summary>
    public static HarmonyWeights ForRules => Shipped.Value.Rules;

    private static readonly Lazy<Both> Shipped = new(() => ModelFile.ReadJson<Both>("harmony.json"));

    private sealed record Both(HarmonyWeights Network, HarmonyWeights Rules);
}
