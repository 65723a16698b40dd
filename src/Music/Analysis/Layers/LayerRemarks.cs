using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>What is worth saying about what two parts make together.</summary>
public static class LayerRemarks
{
    private const string UpperMethod = "degrees counted above the chord's root; chord names as docs/chord-symbols.md writes them";
    private const string RoughMethod = "Plomp and Levelt 1965 as parametrised by Sethares 1993; six partials a note falling by 0.88, all notes equally loud";
    private const double RubsMore = 1.5;
    private static readonly Beats Long = Beats.Whole(2);
    private static readonly Beats Noticed = Beats.Fraction(1, 2);
    private static readonly Beats Held = Beats.Whole(1);

    public static IEnumerable<Remark> Of(Song song)
    {
        var moments = Moments.Of(song);
        return Unions(song, moments).Concat(Clashes(moments)).Concat(Roughness(song, moments)).Concat(Suspensions(song));
    }

    private static IEnumerable<Remark> Unions(Song song, ImmutableArray<Moment> moments)
    {
        var layered = Stretches(moments).Select(m => (Moment: m, Chord: Layered(m, song))).Where(l => l.Chord.Added.Any()).ToArray();
        foreach (var group in layered.GroupBy(l => (l.Chord.Lower, Notes: Notes(l.Moment))))
        {
            var first = group.First();
            yield return new(RemarkKind.LayeredChord, Sentence(first.Moment, first.Chord), [.. Facts(first.Moment, first.Chord)])
            {
                Places = [.. group.Select(l => l.Moment.Place)],
            };
        }
    }

    /// <summary>Moments of one harmonica chord (or one long note) over one chord, joined where only the guitar's picking changes.</summary>
    private static IEnumerable<Moment> Stretches(ImmutableArray<Moment> moments)
    {
        Moment? open = null;
        foreach (var moment in moments.Where(m => m.Chord is { Chord.IsNone: false } && m.Of(Layer.Harmonica).Any()))
        {
            if (open is not null && open.Place.Bar == moment.Place.Bar && open.Place.Start + open.Place.Length == moment.Place.Start
                && open.Chord == moment.Chord && Notes(open) == Notes(moment))
            {
                open = open with { Place = open.Place with { Length = open.Place.Length + moment.Place.Length } };
                continue;
            }
            if (open is not null && IsHeardAsChord(open))
                yield return open;
            open = moment;
        }
        if (open is not null && IsHeardAsChord(open))
            yield return open;
    }

    private static bool IsHeardAsChord(Moment moment) => moment.Of(Layer.Harmonica).Count() > 1 ? moment.Place.Length >= Noticed : moment.Place.Length >= Long;

    private static string Notes(Moment moment) => string.Join(',', moment.Of(Layer.Harmonica).Select(n => n.Played));

    private static LayeredChord Layered(Moment moment, Song song)
    {
        LayerNote[] strummed = [.. moment.Of(Layer.Strummed)];
        var chord = moment.Chord!.Chord;
        return LayeredChord.Of(chord, [.. strummed.Select(n => n.Pitch.Name)], strummed.Length > 0 ? strummed[0].Pitch.Name : chord.Bass,
            [.. moment.Of(Layer.Harmonica).Select(n => n.Pitch.Name)], song.KeyAt(moment.Place.Bar));
    }

    private static string Sentence(Moment moment, LayeredChord layered)
    {
        LayerNote[] harp = [.. moment.Of(Layer.Harmonica)];
        var added = harp.DistinctBy(n => n.Pitch.Name.PitchClass).Zip(layered.Degrees).Where(p => layered.Added.Contains(p.Second)).ToArray();
        var who = harp.Length == 1 ? $"The harmonica's {harp[0].Played}, {ChordSpeech.Of(harp[0].Pitch.Name)}, turns"
            : $"The harmonica's {Breath(harp)}, {NumberWords.List([.. harp.Select(n => ChordSpeech.Of(n.Pitch.Name))])}, turn";
        var adds = NumberWords.List([.. added.Select(p => $"{ChordSpeech.Of(p.First.Pitch.Name)} is its {ChordSpeech.Degree(p.Second)}")]);
        return $"{who} the guitar's {ChordSpeech.Of(layered.Lower)} into {ChordSpeech.Of(layered.Name)}{AlsoCalled(layered)}: {adds}.";
    }

    private static string Breath(LayerNote[] harp)
    {
        var words = harp.Select(n => n.Played.Split(' ', 2)).ToArray();
        return words.All(w => w[0] == words[0][0]) ? $"{words[0][0]} {NumberWords.List([.. words.Select(w => w[1])])}"
            : NumberWords.List([.. harp.Select(n => n.Played)]);
    }

    private static string AlsoCalled(LayeredChord layered)
    {
        var eleventh = Chord.Of(layered.Name.Root, ChordQuality.FromDegrees("1 5 b7 9 11"), layered.Name.Bass);
        return layered.Name != eleventh && layered.Name.PitchClasses.SequenceEqual(eleventh.PitchClasses)
            ? $" (or {ChordSpeech.Of(eleventh)}, without its third)" : "";
    }

    private static IEnumerable<RemarkFact> Facts(Moment moment, LayeredChord layered)
    {
        yield return new("together", ChordSymbol.Write(layered.Name), layered.Union[0].Reason);
        yield return new("degrees", string.Join(' ', layered.Degrees.Select(d => d.DegreeName)) + $" over {ChordSymbol.Write(layered.Lower)}", UpperMethod);
        if (layered.Upper is { } upper)
            yield return new("upper structure", $"{ChordSymbol.Write(upper)} over {ChordSymbol.Write(layered.Lower)}", UpperMethod);
        yield return new("shared notes", layered.Shared.IsEmpty ? "none" : string.Join(' ', layered.Shared), "pitch classes compared");
        yield return new("who plays what", string.Join("; ", moment.Notes.Select(n => $"{n.Pitch} {n.Played}")),
            "the song's shapes, tuning, capo and harmonica");
    }

    private static IEnumerable<Remark> Clashes(ImmutableArray<Moment> moments)
    {
        var all = moments.SelectMany(m => Clash.In(m).Select(c => (Moment: m, Clash: c)))
            .Where(c => c.Moment.Place.Length >= (c.Clash.Kind == ClashKind.Semitone ? Held : Noticed)
            && (c.Clash.Lower.Layer == Layer.Harmonica) != (c.Clash.Higher.Layer == Layer.Harmonica)).ToArray();
        foreach (var kind in all.GroupBy(c => c.Clash.Kind))
        {
            var pairs = kind.GroupBy(c => (c.Clash.Lower.Pitch.Name, c.Clash.Higher.Pitch.Name))
                .OrderByDescending(g => g.Sum(c => c.Moment.Place.Length.Value)).ToArray();
            var worst = pairs[0].First().Clash;
            var (harp, guitar) = worst.Lower.Layer == Layer.Harmonica ? (worst.Lower, worst.Higher) : (worst.Higher, worst.Lower);
            var rub = kind.Key == ClashKind.Semitone ? "rubs a semitone against" : "stands across";
            yield return new(kind.Key == ClashKind.Semitone ? RemarkKind.LayersClash : RemarkKind.CrossRelation,
                $"The harmonica's {ChordSpeech.Of(harp.Pitch.Name)}, {harp.Played}, {rub} the guitar's "
                    + ChordSpeech.Of(guitar.Pitch.Name)
                    + $"{(kind.Key == ClashKind.CrossRelation ? ", the same letter under another sign" : "")}.{Others(pairs.Length - 1)}",
                [.. pairs.Select(p => new RemarkFact($"{p.Key.Item1} and {p.Key.Item2}",
                    $"{p.First().Clash.Lower.Pitch} {p.First().Clash.Lower.Played}, {p.First().Clash.Higher.Pitch} {p.First().Clash.Higher.Played}",
                    "minor seconds and ninths, and the same letter under two signs, between the parts; a semitone for a beat or longer, two signs for half a "
                    + "beat or longer"))])
            {
                Places = [.. kind.Select(c => c.Moment.Place).Distinct()],
            };
        }
    }

    private static string Others(int others) => others == 0 ? "" : $" {NumberWords.Capital(others)} other {(others == 1 ? "pair does" : "pairs do")} so too.";

    private static IEnumerable<Remark> Roughness(Song song, ImmutableArray<Moment> moments)
    {
        var rough = RoughMoment.Through(moments, song.ReferencePitch.Value).Where(r => r.Moment.Of(Layer.Harmonica).Any() && r.Moment.Guitar.Any()).ToArray();
        var mean = rough.Sum(r => r.ForEachNote * r.Moment.Place.Length.Value) / Math.Max(rough.Sum(r => r.Moment.Place.Length.Value), 1e-9);
        if (rough.Where(r => r.Moment.Place.Length >= Noticed).MaxBy(r => r.ForEachNote) is not { } peak || peak.ForEachNote < mean * RubsMore)
            yield break;
        var place = BarPlace.Of(song.Bars.ElementAt(peak.Moment.Place.Bar - 1).Meter, peak.Moment.Place.Start);
        var through = rough.Where(r => r.Moment.Place.Bar == peak.Moment.Place.Bar).Select(r => $"{r.Moment.Place.Start}: {NumberWords.Of(r.ForEachNote)}");
        yield return new(RemarkKind.RoughMoment,
            $"Guitar and harmonica rub most in bar {peak.Moment.Place.Bar} on {Rhythm.CountWords.Of(place, song.Counting)}.",
            [new("between the parts, a note of the harmonica", peak.ForEachNote.ToString("0.00", CultureInfo.InvariantCulture),
                $"{RoughMethod}; all notes together, less each part's own"),
             new("mean of the same", mean.ToString("0.00", CultureInfo.InvariantCulture), "weighed by length, where both sound"),
             new("all of it", peak.Together.ToString("0.00", CultureInfo.InvariantCulture), RoughMethod),
             new("the same through the bar, by beat", string.Join("; ", through), RoughMethod)])
        {
            Places = [peak.Moment.Place],
        };
    }

    private static IEnumerable<Remark> Suspensions(Song song)
    {
        foreach (var group in ChordSuspension.In(song).GroupBy(s => (s.Chord.Name, s.IsPrepared, s.IsResolved)))
        {
            var one = group.First();
            var before = one.IsPrepared ? "is prepared, since the string holds it from the chord before," : "comes unprepared";
            var after = one.IsResolved ? "and steps down after it" : "and doesn't step down after it";
            yield return new(RemarkKind.SuspendedFourth,
                $"The fourth of {ChordSpeech.Of(one.Chord.Chord)}, {ChordSpeech.Of(one.Fourth.Name)}, {before} {after}.",
                [new("fourth", $"{one.Fourth} on string {song.Tuning.Value.Count - one.StringIndex}",
                    "traced on its string; suspensions as Open Music Theory tells them: prepared, held, resolved by step down")])
            {
                Places = [.. group.Select(s => s.Place)],
            };
        }
    }
}
