using System.IO.Compression;
using System.Text.Json;
using System.Text.Json.Serialization;
using Harkbook.Units;

namespace Harkbook.Listening.Interchange;

/// <summary>Note evidence in JSON: both matrices in 255 steps, row by row, packed with Brotli (RFC 7932) and written in base 64.</summary>
internal sealed class NotePosteriorgramConverter : JsonConverter<NotePosteriorgram>
{
    private sealed record Packed(double Hop, int LowestMidi, int Frames, int Pitches, string Sounding, string Onset);

    public override NotePosteriorgram Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
    {
        var packed = JsonSerializer.Deserialize<Packed>(ref reader) ?? throw new JsonException("The note evidence is missing.");
        return new(Seconds.FromSeconds(packed.Hop), packed.LowestMidi, Unpack(packed.Sounding, packed), Unpack(packed.Onset, packed));
    }

    public override void Write(Utf8JsonWriter writer, NotePosteriorgram value, JsonSerializerOptions options) =>
        JsonSerializer.Serialize(writer, new Packed(value.Hop.Value, value.LowestMidi, value.Frames, value.Pitches, Pack(value.Sounding), Pack(value.Onset)));

    private static string Pack(PosteriorMatrix matrix)
    {
        var steps = new byte[matrix.Frames * matrix.Pitches];
        for (var i = 0; i < steps.Length; i++)
            steps[i] = (byte)Math.Round(matrix[i / matrix.Pitches, i % matrix.Pitches] * 255);
        using var packed = new MemoryStream();
        using (var brotli = new BrotliStream(packed, CompressionLevel.Fastest))
            brotli.Write(steps);
        return Convert.ToBase64String(packed.ToArray());
    }

    private static PosteriorMatrix Unpack(string text, Packed shape)
    {
        using var brotli = new BrotliStream(new MemoryStream(Convert.FromBase64String(text)), CompressionMode.Decompress);
        using var unpacked = new MemoryStream();
        brotli.CopyTo(unpacked);
        // Looked at before anything of that size is made: a damaged file may claim any.
        var steps = unpacked.ToArray();
        if (shape.Frames < 0 || shape.Pitches < 0 || steps.Length != (long)shape.Frames * shape.Pitches)
            throw new JsonException($"{steps.Length} values stand where {shape.Frames} × {shape.Pitches} should.");
        var matrix = new PosteriorMatrix(shape.Frames, shape.Pitches);
        for (var i = 0; i < steps.Length; i++)
            matrix[i / shape.Pitches, i % shape.Pitches] = steps[i] / 255f;
        return matrix;
    }
}
