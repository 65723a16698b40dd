using System.Globalization;
using System.Text;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Training;

/// <summary>Writes the lines of a made-up song file.</summary>
internal sealed class SongLines
{
    private readonly StringBuilder text = new();

    /// <summary>Bars between bar lines.</summary>
    public static string Bars(IEnumerable<string> bars) => $"| {string.Join(" | ", bars)} |";

    /// <summary>Cells of a pick block with nothing in them: strings from the low one × bars × cells.</summary>
    public static string[][][] Rows(Tuning tuning, int bars, int cells) =>
        [.. tuning.Strings.Select(_ => Enumerable.Range(0, bars).Select(_ => Enumerable.Repeat(".", cells).ToArray()).ToArray())];

    public void Add(params string[] lines)
    {
        foreach (var line in lines)
            text.Append(CultureInfo.InvariantCulture, $"{line}\n");
    }

    /// <summary>A pick block.</summary>
    /// <param name="rows">Of <see cref="Rows"/>.</param>
    public void AddPick(Tuning tuning, string[][][] rows)
    {
        Add("pick");
        for (var s = tuning.Count - 1; s >= 0; s--)
            Add($"{tuning.Strings[s]} {Bars(rows[s].Select(bar => string.Join(' ', bar)))}");
    }

    public override string ToString() => text.ToString();
}
