using System.IO.Compression;
using System.Runtime.InteropServices;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Interchange;

/// <summary>
/// A Hearing as JSON, losslessly but for the note evidence, which is kept in 255 steps. Times in seconds, pitches and
/// tunings by name, chords in Harte syntax.
/// </summary>
public static class HearingJson
{
    private static readonly JsonSerializerOptions Whole = Options(new NoteEvidenceConverter());
    private static readonly JsonSerializerOptions Summary = Options(new NoEvidenceConverter());

    /// <param name="withEvidence">False leaves out the note evidence, which is large and of use only to Harkbook.</param>
    public static string Write(Hearing hearing, bool withEvidence = true) =>
        JsonSerializer.Serialize(hearing, withEvidence ? Whole : Summary);

    /// <exception cref="JsonException">The text is no Hearing written by this version.</exception>
    public static Hearing Read(string json) =>
        JsonSerializer.Deserialize<Hearing>(json, Whole) ?? throw new JsonException("The file holds no Hearing.");

    private static JsonSerializerOptions Options(JsonConverter evidence) => new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = evidence is NoEvidenceConverter,
        IndentSize = 1,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters =
        {
            evidence,
            new NumberConverter<Hertz>(h => h.Value, Hertz.FromHertz),
            new NumberConverter<Cents>(c => c.Value, Cents.FromCents),
            new NumberConverter<Seconds>(s => s.Value, Seconds.FromSeconds),
            new NumberConverter<SampleRate>(r => r.Hertz, d => SampleRate.FromHertz((int)d)),
            new NumberConverter<Capo>(c => c.Fret, d => Capo.At((int)d)),
            new TextConverter<Key>(Key.Parse),
            new TextConverter<Meter>(Meter.Parse),
            new TextConverter<Tuning>(Tuning.Parse),
            new TextConverter<PitchName>(PitchName.Parse),
            new TextConverter<HarpNote>(HarpNote.Parse),
            new JsonStringEnumConverter<SecondInstrumentKind>(JsonNamingPolicy.CamelCase),
            new ChordConverter(),
            new PitchContourConverter(),
        },
    };

    private sealed class NumberConverter<T>(Func<T, double> write, Func<double, T> read) : JsonConverter<T>
    {
        public override T Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options) => read(reader.GetDouble());

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) =>
            writer.WriteNumberValue(Math.Round(write(value), 6));
    }

    private sealed class TextConverter<T>(Func<string, T> read) : JsonConverter<T>
    {
        public override T Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options) => read(reader.GetString() ?? "");

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => writer.WriteStringValue(value!.ToString());
    }

    private sealed class ChordConverter : JsonConverter<Chord>
    {
        public override Chord Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options) => HarteLabel.Read(reader.GetString() ?? "");

        public override void Write(Utf8JsonWriter writer, Chord value, JsonSerializerOptions options) => writer.WriteStringValue(HarteLabel.Write(value));
    }

    private sealed class NoEvidenceConverter : JsonConverter<NoteEvidence>
    {
        public override NoteEvidence Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options) =>
            throw new JsonException("A summary can't be read back.");

        public override void Write(Utf8JsonWriter writer, NoteEvidence value, JsonSerializerOptions options) => writer.WriteNullValue();
    }

    private sealed class NoteEvidenceConverter : JsonConverter<NoteEvidence>
    {
        private sealed record Packed(double Hop, int LowestMidi, int Frames, int Pitches, string Sounding, string Onset);

        public override NoteEvidence Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
        {
            var packed = JsonSerializer.Deserialize<Packed>(ref reader) ?? throw new JsonException("The note evidence is missing.");
            return new(Seconds.FromSeconds(packed.Hop), packed.LowestMidi, Unpack(packed.Sounding, packed), Unpack(packed.Onset, packed));
        }

        public override void Write(Utf8JsonWriter writer, NoteEvidence value, JsonSerializerOptions options) =>
            JsonSerializer.Serialize(writer, new Packed(value.Hop.Value, value.LowestMidi, value.Frames, value.Pitches, Pack(value.Sounding), Pack(value.Onset)));

        private static string Pack(float[,] matrix)
        {
            var values = MemoryMarshal.CreateReadOnlySpan(ref MemoryMarshal.GetArrayDataReference(matrix), matrix.Length * sizeof(float));
            var steps = new byte[matrix.Length];
            var floats = MemoryMarshal.Cast<byte, float>(values);
            for (var i = 0; i < steps.Length; i++)
                steps[i] = (byte)Math.Round(Math.Clamp(floats[i], 0, 1) * 255);
            using var packed = new MemoryStream();
            using (var brotli = new BrotliStream(packed, CompressionLevel.Fastest))
                brotli.Write(steps);
            return Convert.ToBase64String(packed.ToArray());
        }

        private static float[,] Unpack(string text, Packed shape)
        {
            using var brotli = new BrotliStream(new MemoryStream(Convert.FromBase64String(text)), CompressionMode.Decompress);
            var steps = new byte[shape.Frames * shape.Pitches];
            brotli.ReadExactly(steps);
            var matrix = new float[shape.Frames, shape.Pitches];
            for (var i = 0; i < steps.Length; i++)
                matrix[i / shape.Pitches, i % shape.Pitches] = steps[i] / 255f;
            return matrix;
        }
    }
}
