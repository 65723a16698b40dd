using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Harkbook.Publishing.Lessons;

/// <summary>HTML pages of one file, filled from parts that lie in the program.</summary>
internal static class PageTemplate
{
    private static readonly JsonSerializerOptions Layout = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Encoder = JavaScriptEncoder.Default };

    /// <summary>Data as a page's script reads it; nothing in it can end the script.</summary>
    public static string Json(object data) => JsonSerializer.Serialize(data, Layout);

    /// <summary>The text with a value in place of each [[name]].</summary>
    public static string Fill(string template, IReadOnlyDictionary<string, string> values)
    {
        var text = new StringBuilder();
        foreach (var (part, index) in template.Split("[[").Select((p, i) => (p, i)))
        {
            var end = index == 0 ? -1 : part.IndexOf("]]", StringComparison.Ordinal);
            text.Append(index == 0 ? part : values[part[..end]] + part[(end + 2)..]);
        }
        return text.ToString();
    }

    /// <param name="name">As the project file embeds it: "page/page.html".</param>
    public static string Part(string name)
    {
        using var stream = typeof(PageTemplate).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The page's part {name} is not in the program; the build left it out.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
