using System.Text.Encodings.Web;
using System.Text.Json;

namespace Harkbook.App.Reports;

internal static class JsonLayout
{
    /// <summary>Indented, with note names and arrows readable.</summary>
    public static JsonSerializerOptions Readable { get; } = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>A case as JSON names it: "borrowedChord".</summary>
    public static string Name(Enum value) => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
}
