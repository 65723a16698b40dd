using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>What is worth saying about the singing on the bar's count and against the guitar.</summary>
public static class SungRhythmRemarks
{
    private const string LonguetHigginsLee = "Longuet-Higgins and Lee 1984, places less than a bar after the note";
    private const int FewestBars = 2;

    /// <summary>Below one syncopation in two bars a player would call the singing straight. Our judgement.</summary>
    private const double WorthSaying = 0.5;

    public static IEnumerable<Remark> Of(Song song)
    {
        var rhythm = SungRhythm.Of(song);
        if (rhythm.Bars.IsEmpty)
            return [];
        var remarks = new[] { Entries(rhythm), Syncopation(rhythm), AgainstGuitar(rhythm) }.OfType<Remark>().Concat(Anticipations(song, rhythm));
        var doubt = Doubt([.. song.Bars.SelectMany(b => b.Sung).Select(s => s.Standing)]);
        return remarks.Select((r, i) => i == 0 ? r with { Sentence = r.Sentence + doubt } : r);
    }

    private static string Doubt(IReadOnlyCollection<Standing> sung) =>
        !Standing.AreMostlyHeard(sung) ? ""
        : " That is so if the syllables are heard rightly; no person has decided "
            + $"{(sung.All(s => s.Kind == StandingKind.Heard) ? "them" : "most of them")} yet.";

    private static Remark? Entries(SungRhythm rhythm)
    {
        var late = rhythm.Bars.Where(b => !b.EntersBeat && !b.IsHeldInto).ToArray();
        if (late.Length < FewestBars || late.Length * 2 < rhythm.Bars.Length)
            return null;
        var (place, times) = late.Select(b => FirstPlace(b)).GroupBy(p => p).OrderByDescending(g => g.Count()).Select(g => (g.Key, g.Count())).First();
        var most = times == late.Length ? $"always on {CountWords.Of(place, rhythm.Counting)}" : $"most often on {CountWords.Of(place, rhythm.Counting)}";
        return new(RemarkKind.VoiceEntersLate,
            $"The voice comes in after the first beat in {NumberWords.Of(late.Length)} of {NumberWords.Of(rhythm.Bars.Length)} sung bars, {most}.",
            [new("bars entered after the first beat", $"{late.Length} of {rhythm.Bars.Length}",
                "counted; a bar that a held syllable reaches into doesn't count"),
             new("commonest entry", $"{place.Named(rhythm.Counting)}, {times} times", "counting as in Integrated Music Theory 2018–19, sections 4a and 4b")])
        {
            Places = [.. late.Select(b => new SongPlace(b.Number, FirstPlace(b).Position, Beats.Whole(1)))],
        };
    }

    private static BarPlace FirstPlace(SungBar bar) => BarPlace.Of(bar.Lines.Bar.Meter, bar.Lines.Voice.First().At);

    private static Remark? Syncopation(SungRhythm rhythm)
    {
        if (rhythm.Syncopations.IsEmpty || rhythm.MeanSyncopation < WorthSaying)
            return null;
        var most = rhythm.Bars.Max(b => b.Syncopation);
        var peaks = rhythm.Bars.Where(b => b.Syncopation == most && most > rhythm.MeanSyncopation).ToArray();
        var peak = peaks.Length == 0 ? "" : $" {Strongest(peaks)}";
        return new(RemarkKind.SungSyncopation,
            $"The singing is syncopated: in {Pulled(rhythm)} a syllable leaves the stronger beat after it unsung.{peak}",
            [new("syncopation a bar", Mean(rhythm, most), LonguetHigginsLee), .. OtherMeasures(rhythm)])
        {
            Places = [.. peaks.Select(b => SongPlace.Of(b.Lines.Bar))],
        };
    }

    private static string Mean(SungRhythm rhythm, int most) =>
        string.Create(CultureInfo.InvariantCulture, $"{rhythm.MeanSyncopation:0.00}, at most {most}; 0 where every strong beat is sung");

    private static string Pulled(SungRhythm rhythm)
    {
        var bars = rhythm.Syncopations.Select(s => s.NoteBar).Distinct().Count();
        return bars >= rhythm.Bars.Length ? "every sung bar" : $"{NumberWords.Of(bars)} of {NumberWords.Of(rhythm.Bars.Length)} sung bars";
    }

    private static string Strongest(SungBar[] bars) =>
        bars.Length == 1 ? $"Bar {bars[0].Number} is the most so." : $"{NumberWords.Capital(bars.Length)} bars are the most so.";

    private static IEnumerable<RemarkFact> OtherMeasures(SungRhythm rhythm)
    {
        var syllables = rhythm.Bars.Sum(b => b.Onsets.Count);
        yield return new("weighted note-to-beat distance", (rhythm.Bars.Sum(b => b.BeatDistance) / syllables)
            .ToString("0.00 a syllable", CultureInfo.InvariantCulture),
            "Gómez, Melvin, Rappaport and Toussaint 2005, each bar as if repeated");
        if (rhythm.Bars.All(b => b.Keith is not null))
            yield return new("Keith's syncopation", rhythm.Bars.Average(b => b.Keith!.Value).ToString("0.00 a bar", CultureInfo.InvariantCulture),
                "Keith 1991, each bar as if repeated");
        if (ShareBelow(rhythm) is { } share)
            yield return new("against chance", share.ToString("0% of placements are less syncopated", CultureInfo.InvariantCulture),
                "all ways to put as many syllables on the bar's grid, counted; ties half");
    }

    private static double? ShareBelow(SungRhythm rhythm)
    {
        var shares = rhythm.Bars.Select(b => ChancePlacement.ShareBelow(b.Lines.Bar.Meter, b.Onsets)).OfType<double>().ToArray();
        return shares.Length == 0 ? null : shares.Average();
    }

    private static Remark? AgainstGuitar(SungRhythm rhythm)
    {
        var both = rhythm.Bars.Where(b => b.Lines.HasGuitar).ToArray();
        if (both.Length == 0)
            return null;
        var apart = both.SelectMany(b => b.Lines.Voice.Where(v => !v.IsTogether).Select(v => (b.Number, Place: BarPlace.Of(b.Lines.Bar.Meter, v.At))))
            .ToArray();
        var all = both.Sum(b => b.Onsets.Count);
        return new(RemarkKind.VoiceAgainstGuitar, Sentence(all, [.. apart.Select(a => a.Place)], rhythm.Counting),
            [new("syllables on a stroke", $"{all - apart.Length} of {all}", "starts at the same place of the bar, counted over the bars that have both")])
        {
            // Where it holds of most bars it holds of the song.
            Places = apart.Select(a => a.Number).Distinct().Count() * 2 > both.Length ? []
                : [.. apart.Select(a => new SongPlace(a.Number, a.Place.Position, Beats.Fraction(1, a.Place.Meter.DivisionsPerBeat)))],
        };
    }

    private static string Sentence(int all, ImmutableArray<BarPlace> apart, Counting counting)
    {
        if (apart.IsEmpty)
            return all == 1 ? "The one syllable falls on a stroke of the guitar."
                : $"All {NumberWords.Of(all)} syllables fall on a stroke or a picked note of the guitar.";
        var common = apart.GroupBy(p => p).OrderByDescending(g => g.Count()).First();
        var where = common.Count() == 1 ? "" : common.Count() == apart.Length ? $", all on {CountWords.Of(common.Key, counting)}"
            : $", most often on {CountWords.Of(common.Key, counting)}";
        return apart.Length == all
            ? $"Voice and guitar never strike together: every syllable falls between the guitar's strokes{where}."
            : $"Voice and guitar strike together on {NumberWords.Of(all - apart.Length)} of {NumberWords.Of(all)} syllables; "
                + $"{(apart.Length == 1 ? "one falls" : "the others fall")} between the strokes{where}.";
    }

    private static IEnumerable<Remark> Anticipations(Song song, SungRhythm rhythm)
    {
        var meters = song.Bars.ToDictionary(b => b.Number, b => b.Meter);
        foreach (var group in rhythm.Anticipations.GroupBy(a => (Length: CountWords.Of(meters[a.Bar], a.Early), a.IntoNextBar)))
        {
            var places = group.ToArray();
            var words = places.Select(a => a.Syllable).Where(s => s != "x").Distinct().Take(3).Select(s => $"\"{s.TrimEnd('-')}\"").ToArray();
            var example = words.Length == 0 ? "" : $", as on {NumberWords.List(words)}";
            yield return new(RemarkKind.VoiceAnticipates,
                $"In {NumberWords.Of(places.Length, "place")} the voice comes {group.Key.Length} before "
                    + $"{(group.Key.IntoNextBar ? "the bar" : "the middle of the bar")} and holds over it{example}.",
                [new("syllables before the beat", places.Length.ToString(CultureInfo.InvariantCulture), "a start off the beat, at most half a beat early, that "
                    + "lasts past the first or middle beat of a bar on which none starts (common practice)")])
            {
                Places = [.. places.Select(a => new SongPlace(a.Bar, a.Start, a.Early))],
            };
        }
    }
}
