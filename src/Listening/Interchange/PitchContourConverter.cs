using System.Text.Json;
using System.Text.Json.Serialization;
using Harkbook.Units;

namespace Harkbook.Listening.Interchange;

/// <summary>A contour as its hop, its number of frames and the stretches in which something sounds, each on one line.</summary>
internal sealed class PitchContourConverter : JsonConverter<PitchContour>
{
    private sealed record Stretch(int First, float[] Cents, float[] Confidence);

    private sealed record Packed(double Hop, int Frames, Stretch[] Stretches);

    private static readonly JsonSerializerOptions Names = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
    };

    public override PitchContour Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
    {
        var packed = JsonSerializer.Deserialize<Packed>(ref reader, Names) ?? throw new JsonException("The pitch contour is missing.");
        var (cents, confidence) = (new float[packed.Frames], new float[packed.Frames]);
        foreach (var stretch in packed.Stretches)
        {
            stretch.Cents.CopyTo(cents, stretch.First);
            stretch.Confidence.CopyTo(confidence, stretch.First);
        }
        return new(Seconds.FromSeconds(packed.Hop), [.. cents], [.. confidence]);
    }

    public override void Write(Utf8JsonWriter writer, PitchContour value, JsonSerializerOptions options)
    {
        var stretches = new List<Stretch>();
        for (var f = 0; f < value.Frames; f++)
        {
            var first = f;
            while (f < value.Frames && value.IsSounding(f))
                f++;
            if (f > first)
                stretches.Add(new(first, [.. value.Cents[first..f]], [.. value.Confidence[first..f]]));
        }
        writer.WriteRawValue(JsonSerializer.Serialize(new Packed(value.Hop.Value, value.Frames, [.. stretches]), Names));
    }
}
