using System.Globalization;
using System.Text.Json;

namespace Harkbook.Listening.Tests.Evaluation;

/// <summary>Reads the published pairs beside the tests (see Fixtures/mir_eval/README.md).</summary>
internal static class Fixture
{
    public static TheoryData<string> Numbers(int count) => [.. Enumerable.Range(0, count).Select(i => i.ToString("00", CultureInfo.InvariantCulture))];

    public static string PathOf(string task, string file) => Path.Combine(AppContext.BaseDirectory, "Fixtures", "mir_eval", task, file);

    public static string[][] Rows(string task, string file) =>
        [.. File.ReadLines(PathOf(task, file)).Where(l => l.Trim().Length > 0 && !l.StartsWith('#'))
            .Select(l => l.Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries))];

    public static double[] Column(string task, string file) => [.. Rows(task, file).Select(r => Number(r[0]))];

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    public static double Expected(string task, string number, string measure)
    {
        using var document = JsonDocument.Parse(File.ReadAllText(PathOf(task, $"output{number}.json")));
        return document.RootElement.GetProperty(measure).GetDouble();
    }
}
