using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;
using Harkbook.Units;

namespace Harkbook.Listening.Interchange;

/// <summary>A Hearing as JSON, without its evidence. Times in seconds, pitches and tunings by name, chords in Harte syntax.</summary>
public static class HearingJson
{
    /// <summary>A summary is for people: a millionth of a second or of a hertz is enough.</summary>
    private const int SummaryDigits = 6;

    private static readonly JsonSerializerOptions Whole = Options(value => value, indented: false);
    private static readonly JsonSerializerOptions Summary = Options(value => Math.Round(value, SummaryDigits), indented: true);

    /// <param name="rounded">Rounds times and pitches and starts new lines, for people.</param>
    public static string Write(Hearing hearing, bool rounded = false) => JsonSerializer.Serialize(hearing, rounded ? Summary : Whole);

    /// <summary>Writes all of it into a stream, in UTF-8.</summary>
    public static void Write(Hearing hearing, Stream stream) => JsonSerializer.Serialize(stream, hearing, Whole);

    /// <exception cref="JsonException">The text is no Hearing written by this version.</exception>
    public static Hearing Read(string json) => Read(() => JsonSerializer.Deserialize<Hearing>(json, Whole));

    /// <summary>The same from a stream in UTF-8.</summary>
    /// <exception cref="JsonException">It holds no Hearing written by this version.</exception>
    public static Hearing Read(Stream stream) => Read(() => JsonSerializer.Deserialize<Hearing>(stream, Whole));

    private static Hearing Read(Func<Hearing?> read)
    {
        try
        {
            return read() ?? throw new JsonException("The file holds no Hearing.");
        }
        catch (Exception e) when (e is FormatException or ArgumentException or InvalidOperationException or IOException or OverflowException)
        {
            throw new JsonException($"The file holds no Hearing that makes sense: {e.Message}", e);
        }
    }

    private static JsonSerializerOptions Options(Func<double, double> rounded, bool indented) => new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = indented,
        IndentSize = 1,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { indented ? NeverCertain : _ => { } } },
        Converters =
        {
            new NumberConverter<Hertz>(h => rounded(h.Value), Hertz.FromHertz),
            new NumberConverter<Cents>(c => rounded(c.Value), Cents.FromCents),
            new NumberConverter<Seconds>(s => rounded(s.Value), Seconds.FromSeconds),
            new NumberConverter<SampleRate>(r => r.Hertz, d => SampleRate.FromHertz((int)d)),
            new CapoConverter(),
            new TextConverter<Key>(Key.Parse),
            new TextConverter<Meter>(Meter.Parse),
            new TextConverter<Tuning>(Tuning.Parse),
            new TextConverter<PitchName>(PitchName.Parse),
            new TextConverter<HarpNote>(HarpNote.Parse),
            new JsonStringEnumConverter<LineKind>(JsonNamingPolicy.CamelCase),
            new ChordConverter(),
            new PitchContourConverter(),
        },
    };

    /// <summary>People are told at most <see cref="Standing.MostHeard"/> of what was heard.</summary>
    private static void NeverCertain(JsonTypeInfo type)
    {
        foreach (var property in type.Properties.Where(p => p.Name == "confidence" && p.PropertyType == typeof(double) && p.Get is not null))
        {
            var confidence = property.Get!;
            property.Get = owner => Math.Min(Standing.MostHeard, (double)confidence(owner)!);
        }
    }

    private sealed class NumberConverter<T>(Func<T, double> write, Func<double, T> read) : JsonConverter<T>
    {
        public override T Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options) => read(reader.GetDouble());

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) =>
            writer.WriteNumberValue(write(value));
    }

    /// <summary>The fret; with a partial capo an object that also names the strings it stops, 0 the lowest.</summary>
    private sealed class CapoConverter : JsonConverter<Capo>
    {
        private sealed record Partial(int Fret, int[] Strings);

        public override Capo Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
        {
            if (reader.TokenType == JsonTokenType.Number)
                return Capo.At(reader.GetInt32());
            var partial = JsonSerializer.Deserialize<Partial>(ref reader, options) ?? throw new JsonException("The capo is missing.");
            return Capo.At(partial.Fret, [.. partial.Strings]);
        }

        public override void Write(Utf8JsonWriter writer, Capo value, JsonSerializerOptions options)
        {
            if (value.IsPartial)
                JsonSerializer.Serialize(writer, new Partial(value.Fret, [.. value.OnlyStrings]), options);
            else
                writer.WriteNumberValue(value.Fret);
        }
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
}
