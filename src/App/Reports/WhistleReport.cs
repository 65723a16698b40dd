using System.Globalization;
using System.Text;
using System.Text.Json;
using Harkbook.Music.Instruments.Winds;
using Harkbook.Music.Theory;

namespace Harkbook.App.Reports;

/// <summary>Ranked whistles, each with the tune's fingerings drawn as players draw them: a column of holes a note.</summary>
internal static class WhistleReport
{
    private const int NotesALine = 18;

    public static string Write(IReadOnlyList<WindFit> ranked)
    {
        var text = new StringBuilder();
        foreach (var fit in ranked)
        {
            text.Append(text.Length > 0 ? "\n" : "")
                .AppendLine(CultureInfo.InvariantCulture, $"whistle in {fit.Wind.Name}: {Asks(fit)}; effort {fit.Cost:0.00}");
            foreach (var line in fit.Ways.Chunk(NotesALine))
                Draw(text, line);
        }
        return text.ToString();
    }

    private static string Asks(WindFit fit)
    {
        var parts = new[]
        {
            (fit.Count(WindTechnique.Plain), "plain"), (fit.Count(WindTechnique.Crossed), "cross-fingered"), (fit.Count(WindTechnique.HalfHoled), "half-holed"),
            (fit.Overblown, "of them overblown"), (fit.NotThere, "not there"),
        };
        return string.Join(", ", parts.Where(p => p.Item1 > 0).Select(p => $"{p.Item1} {p.Item2}"));
    }

    private static void Draw(StringBuilder text, WindFingering?[] line)
    {
        Row(w => w?.Pitch.ToString() ?? "?");
        for (var hole = 0; hole < line.Max(w => w?.Holes.Length ?? 0); hole++)
            Row(w => w is not null && hole < w.Holes.Length ? w.ToString()[hole].ToString() : " ");
        Row(w => w is { IsOverblown: true } ? "+" : " ");

        void Row(Func<WindFingering?, string> cell) => text.AppendLine(("  " + string.Concat(line.Select(w => $"{cell(w),-4}"))).TrimEnd());
    }

    public static string Json(IReadOnlyList<Pitch> notes, IReadOnlyList<WindFit> ranked) => JsonSerializer.Serialize(
        new
        {
            pitches = notes.Select(p => p.ToString()),
            whistles = ranked.Select(f => new
            {
                name = f.Wind.Name,
                effort = Math.Round(f.Cost, 4),
                plain = f.Count(WindTechnique.Plain),
                crossFingered = f.Count(WindTechnique.Crossed),
                halfHoled = f.Count(WindTechnique.HalfHoled),
                overblown = f.Overblown,
                notThere = f.NotThere,
                fingerings = f.Ways.Select(w => w is null ? null : new { holes = w.Holes, overblown = w.IsOverblown }),
            }),
        },
        JsonLayout.Readable) + "\n";
}
