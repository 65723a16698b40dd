using System.Text.Json;

namespace Harkbook.Demo;

/// <summary>How a made-up song is played for its made-up recording: what a player brings that a song file doesn't say.</summary>
public sealed record DemoPerformance
{
    private static readonly JsonSerializerOptions Format = new(JsonSerializerDefaults.Web) { ReadCommentHandling = JsonCommentHandling.Skip };

    /// <summary>The same seed plays the same performance.</summary>
    public required int Seed { get; init; }

    /// <summary>"steel" or "nylon".</summary>
    public string Strings { get; init; } = "steel";

    /// <summary>How long the room rings; 0.1 to 3 s.</summary>
    public double RoomSeconds { get; init; } = 0.5;

    /// <summary>How far the tempo breathes within a phrase, as a share; 0 to 0.1.</summary>
    public double Rubato { get; init; } = 0.03;

    /// <summary>Unevenness of onsets (deviation); 0 to 20 ms.</summary>
    public double JitterMilliseconds { get; init; } = 7;

    /// <summary>Quiet before bar 1.</summary>
    public double LeadInSeconds { get; init; } = 0.8;

    /// <summary>Programme loudness, LUFS.</summary>
    public double Loudness { get; init; } = -16;

    /// <summary>Reads a performance from JSON.</summary>
    public static DemoPerformance Parse(string json) =>
        JsonSerializer.Deserialize<DemoPerformance>(json, Format) ?? throw new FormatException("The performance is empty; it needs at least a seed.");
}
