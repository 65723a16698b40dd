using System.Globalization;
using System.Text;
using System.Text.Json;
using Harkbook.Music.Analysis.Layers;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.App.Reports;

/// <summary>What two parts make together, as text and as JSON.</summary>
internal static class LayerReport
{
    private const int NamesShown = 3;

    public static string Text(LayerPair pair)
    {
        var text = new StringBuilder();
        foreach (var name in pair.Chord.Union.Take(NamesShown))
            text.Append(CultureInfo.InvariantCulture, $"{name.Symbol,-12} {name.Reason}\n");
        text.Append('\n');
        Line(text, "degrees", $"{Degrees(pair)} over "
            + $"{ChordSymbol.Write(pair.Chord.Lower)}{(pair.Chord.Upper is { } upper ? $": {ChordSymbol.Write(upper)} as an upper structure" : "")}");
        Line(text, "shared", pair.Chord.Shared.IsEmpty ? "no note" : string.Join(' ', pair.Chord.Shared));
        if (pair.Clashes.IsEmpty)
            Line(text, "clashes", "none");
        foreach (var clash in pair.Clashes)
            Line(text, "clashes", $"{Note(clash.Lower)} against "
                + $"{Note(clash.Higher)}{(clash.Kind == ClashKind.CrossRelation ? ": one letter under two signs" : ": a semitone and octaves")}");
        Line(text, "roughness", string.Create(CultureInfo.InvariantCulture,
            $"{pair.Roughness:0.0}, of which {pair.Between:0.0} between the two (Plomp and Levelt 1965, Sethares 1993)"));
        foreach (var note in pair.Notes)
            Line(text, note.Layer switch { Layer.Strummed => "lower", _ => "upper" }, Note(note));
        return text.ToString();
    }

    public static string Json(LayerPair pair) => JsonSerializer.Serialize(
        new
        {
            names = pair.Chord.Union.Take(NamesShown).Select(n => new { symbol = n.Symbol, reason = n.Reason }),
            lower = ChordSymbol.Write(pair.Chord.Lower),
            upper = pair.Chord.Upper is { } upper ? ChordSymbol.Write(upper) : null,
            degrees = pair.Chord.Degrees.Select(d => d.DegreeName),
            shared = pair.Chord.Shared.Select(n => n.ToString()),
            clashes = pair.Clashes.Select(c => new { kind = JsonLayout.Name(c.Kind), lower = Of(c.Lower), higher = Of(c.Higher) }),
            roughness = Math.Round(pair.Roughness, 4),
            between = Math.Round(pair.Between, 4),
            notes = pair.Notes.Select(Of),
        },
        JsonLayout.Readable) + "\n";

    private static object Of(LayerNote note) => new { layer = JsonLayout.Name(note.Layer), pitch = note.Pitch.ToString(), played = note.Played };

    private static string Degrees(LayerPair pair) => string.Join(' ', pair.Chord.Degrees.Select(d => d.DegreeName));

    private static string Note(LayerNote note) => $"{note.Pitch} ({note.Played})";

    private static void Line(StringBuilder text, string label, string words) => text.Append(CultureInfo.InvariantCulture, $"{label,-12} {words}\n");
}
