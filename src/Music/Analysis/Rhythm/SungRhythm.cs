using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>The sung rhythm of a song, bar by bar; bars in which no syllable starts are left out.</summary>
public sealed record SungRhythm(ImmutableArray<SungBar> Bars, ImmutableArray<Syncopation> Syncopations, ImmutableArray<Anticipation> Anticipations,
    Counting Counting)
{
    public static SungRhythm Of(Song song)
    {
        var lines = song.Bars.Select(TwoParts.Of).ToArray();
        var syncopations = SyncopationRule.Of([.. lines.Select(l => (l.Bar.Meter, l.Voice.Select(v => v.At).ToImmutableArray()))]);
        var held = HeldInto(song);
        return new([.. lines.Where(l => l.HasVoice).Select(l => Measured(l, syncopations, held))], syncopations, Anticipation.In(song), song.Counting);
    }

    /// <summary>Syncopation a bar, over the bars that are sung in; 0 where none is.</summary>
    public double MeanSyncopation => Bars.IsEmpty ? 0 : Syncopations.Sum(s => s.Strength) / (double)Bars.Length;

    private static SungBar Measured(TwoParts lines, ImmutableArray<Syncopation> syncopations, HashSet<int> held)
    {
        Beats[] onsets = [.. lines.Voice.Select(v => v.At)];
        var number = lines.Bar.Number;
        return new(
            lines,
            syncopations.Where(s => s.Bar == number).Sum(s => s.Strength),
            Rhythm.BeatDistance.Total(onsets, onsets[0] + lines.Bar.Meter.BarLength),
            KeithRule.Repeated(lines.Bar.Meter, onsets),
            onsets[0] == Beats.Zero,
            held.Contains(number));
    }

    private static HashSet<int> HeldInto(Song song) =>
        [.. song.Bars.Where(b => b.Sung.Any(s => s.Start + s.Length > b.Meter.BarLength)).Select(b => b.Number + 1)];
}
