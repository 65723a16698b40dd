using System.Text.Json;
using System.Text.Json.Serialization;

namespace Harkbook.Listening.Estimators;

/// <summary>Reads the fitted numbers of models/*.json; models/README.md says what each file must tell.</summary>
internal static class FittedNumbers
{
    private static readonly JsonSerializerOptions Format = new(JsonSerializerDefaults.Web)
    {
        RespectRequiredConstructorParameters = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    /// <param name="file">As "lines.json".</param>
    public static T Read<T>(string file) =>
        JsonSerializer.Deserialize<T>(ModelFile.Read(file), Format) ?? throw new InvalidOperationException($"models/{file} is empty.");
}
