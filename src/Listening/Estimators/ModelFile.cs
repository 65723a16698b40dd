using System.Text.Json;

namespace Harkbook.Listening.Estimators;

/// <summary>Trained weights from models/, embedded in the program.</summary>
internal static class ModelFile
{
    static ModelFile() => RuntimeReports.Forbid();

    private static readonly JsonSerializerOptions Format = new(JsonSerializerDefaults.Web);

    public static byte[] Read(string name)
    {
        using var stream = Open(name);
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    /// <summary>Fitted numbers, which say beside them what they are and how they were fitted.</summary>
    public static T ReadJson<T>(string name)
    {
        using var stream = Open(name);
        return JsonSerializer.Deserialize<T>(stream, Format) ?? throw new InvalidOperationException($"models/{name} is empty.");
    }

    private static Stream Open(string name) =>
        typeof(ModelFile).Assembly.GetManifestResourceStream($"Harkbook.Listening.Models.{name}")
            ?? throw new InvalidOperationException($"models/{name} is missing from the program; it was built without its embedded files.");
}
