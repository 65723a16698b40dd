using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Harkbook.Music.Analysis.Retuning;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.App.Reports;

/// <summary>Songs in playing order.</summary>
/// <param name="Others">Songs for an instrument with another number of strings.</param>
internal sealed record Setlist(FrettedInstrument Instrument, GuitarSetting Start, ImmutableArray<Song> Songs, PlayingOrder Order, ImmutableArray<Song> Others)
{
    /// <summary>Each song with what is to be done before it.</summary>
    public IEnumerable<(Song Song, TuningChange Change, Capo? NewCapo)> Steps
    {
        get
        {
            var now = Start;
            foreach (var song in Songs)
            {
                var next = GuitarSetting.Of(song);
                yield return (song, TuningChange.Between(now.Tuning, next.Tuning), next.Capo == now.Capo ? null : next.Capo);
                now = next;
            }
        }
    }
}

/// <summary>A playing order in words and for machines.</summary>
internal static class SetlistReport
{
    public static string Write(Setlist list)
    {
        var text = new StringBuilder();
        text.AppendLine($"start in {TuningCatalogue.Describe(list.Start.Tuning, list.Instrument.Name)}, no capo").AppendLine();
        var width = list.Songs.Max(s => s.Title.Length);
        foreach (var (song, change, capo) in list.Steps)
        {
            text.AppendLine($"      {Before(change, capo)}");
            text.AppendLine($"  {song.Title.PadRight(width)}  {TuningCatalogue.Describe(song.Tuning.Value, list.Instrument.Name)}, {CapoWords(song)}");
        }
        var steps = list.Steps.ToArray();
        text.AppendLine().AppendLine(CultureInfo.InvariantCulture,
            $"turns of a string: {steps.Sum(s => s.Change.Turned)}, semitones: {steps.Sum(s => s.Change.Semitones)}, capo moves: "
                + $"{steps.Count(s => s.NewCapo is not null)}. {Sure(list.Order)}");
        if (!list.Others.IsEmpty)
            text.AppendLine($"left out, for another number of strings: {string.Join(", ", list.Others.Select(s => s.Title))}");
        return text.ToString();
    }

    public static string Json(Setlist list) => JsonSerializer.Serialize(
        new
        {
            start = list.Start.Tuning.ToString(),
            isBest = list.Order.IsBest,
            cost = Math.Round(list.Order.Cost, 4),
            songs = list.Steps.Select(s => new
            {
                title = s.Song.Title,
                tuning = s.Song.Tuning.Value.ToString(),
                capo = s.Song.Capo.Value.Fret,
                turn = s.Change.InOrder.Select(c => new { @string = c.Number, to = c.To.ToString(), semitones = c.Semitones }),
                moveCapo = s.NewCapo is not null,
            }),
            leftOut = list.Others.Select(s => s.Title),
        },
        JsonLayout.Readable) + "\n";

    private static string Before(TuningChange change, Capo? capo)
    {
        var turns = change.InOrder.Select(s => $"string {s.Number} to {s.To} ({s.Semitones:+0;-0})");
        var all = capo is { } moved ? turns.Append(moved.Fret == 0 ? "take the capo off" : $"capo to fret {moved}") : turns;
        return string.Join(", ", all) is { Length: > 0 } words ? words : "as it is";
    }

    private static string CapoWords(Song song) => song.Capo.Value.Fret == 0 ? "no capo" : $"capo {song.Capo.Value.Describe(song.Tuning.Value)}";

    private static string Sure(PlayingOrder order) => order.IsBest
        ? "No order costs less, when a string to turn counts 1, each semitone 0.2, a string going up 0.2 more, and moving the capo 0.4."
        : $"With more than {PlayingOrder.MostWeighed} different settings not every order was weighed: a cheaper one may exist.";
}
