using System.Collections.Immutable;
using System.Text.Json;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>The fitted numbers of models/beats.json: what each piece of evidence counts in the score of a row of beats.</summary>
internal sealed record BeatModel
{
    private static readonly Lazy<BeatModel> Fitted = new(() => Read(ModelFile.Read("beats.json")));

    /// <summary>The model that comes with the program.</summary>
    public static BeatModel Shipped => Fitted.Value;

    /// <summary>By the names of <see cref="StepFeatures.Names"/>.</summary>
    public required double[] Step { get; init; }

    /// <summary>What the network's word on downbeats, and on the meter, counts.</summary>
    public required double Downbeat { get; init; }

    public required double FeltMeter { get; init; }

    /// <summary>What the clues count that tell places in the bar.</summary>
    public required double Clues { get; init; }

    /// <summary>What a beat in a bar of two and of three counts against one in a bar of four.</summary>
    public required double BarsOfTwo { get; init; }

    public required double BarsOfThree { get; init; }

    public required RowCosts Costs { get; init; }

    /// <summary>How usual each tempo is.</summary>
    public required TempoHabits Habits { get; init; }

    public required BeatSureness Sureness { get; init; }

    /// <summary>Weighs <see cref="StepClues"/> for the nine places of <see cref="BarModel"/>.</summary>
    public required SmallNetwork Places { get; init; }

    public static BeatModel Read(ReadOnlySpan<byte> json)
    {
        var file = JsonDocument.Parse(json.ToArray()).RootElement;
        var weights = file.GetProperty("weights");
        double Weight(string name) => weights.GetProperty(name).GetDouble();
        return new()
        {
            Step = [.. StepFeatures.Names.Select(Weight)],
            Downbeat = Weight("downbeat"),
            FeltMeter = Weight("felt meter"),
            Clues = Weight("clues"),
            BarsOfTwo = Weight("bars of two"),
            BarsOfThree = Weight("bars of three"),
            Costs = new(Weight("a frame longer or shorter"), Weight("change of tempo"), Weight("irregular bar")),
            Habits = new(file.GetProperty("tempo habits").GetProperty("log density").Deserialize<ImmutableArray<double>>()),
            Sureness = BeatSureness.Read(file.GetProperty("sureness")),
            Places = Network(file.GetProperty("places")),
        };
    }

    private static SmallNetwork Network(JsonElement network)
    {
        float[] Row(string name) => network.GetProperty(name).Deserialize<float[]>()!;
        float[][] Rows(string name) => network.GetProperty(name).Deserialize<float[][]>()!;
        return SmallNetwork.Of(Row("mean"), Row("scale"), Row("hiddenBias"), Rows("hidden"), Row("outputBias"), Rows("output"));
    }
}
