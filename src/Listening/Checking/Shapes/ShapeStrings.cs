using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking.Shapes;

/// <summary>
/// Weighs shapes string by string against the string one or two frets off, over all that a song has struck on it while the hand holds the shape. A
/// shape is as right as its most doubtful string.
/// </summary>
internal sealed class ShapeStrings
{
    private readonly Song song;
    private readonly SongClock clock;
    private readonly HeardStarts starts;
    private readonly Fretboard neck;
    private readonly ILookup<(Shape Shape, int StringIndex), StruckString> struck;
    private readonly WeigherModel model = WeigherModel.Of("ShapeString");

    public ShapeStrings(Song song, SongClock clock, HeardStarts starts, StrikeCurve curve)
    {
        (this.song, this.clock, this.starts) = (song, clock, starts);
        neck = new(song.Tuning.Value, song.Capo.Value);
        struck = song.Bars.SelectMany(b => StruckMoments.Of(b, clock, curve)).ToLookup(s => (s.Shape, s.StringIndex));
    }

    /// <summary>A finding for each shape of which a string is struck, at the first bar that uses it.</summary>
    public IEnumerable<Finding> Weigh()
    {
        var uses = song.Bars.SelectMany(b => b.Chords.Where(c => c.Value.Shape is not null).Select(c => (Bar: b, Chord: c)));
        foreach (var use in uses.DistinctBy(u => u.Chord.Value.Name))
        {
            var shape = use.Chord.Value.Shape!;
            var strings = Enumerable.Range(0, shape.Frets.Length).Select(s => Weigh(shape, s)).OfType<WeighedString>().ToList();
            if (strings.Count > 0)
                yield return Told(use.Chord.Value, strings,
                    new(clock.TimeOf(use.Bar.Number, use.Chord.Start), use.Bar.Number, use.Chord.Start.Value + 1));
        }
    }

    private WeighedString? Weigh(Shape shape, int s)
    {
        var moments = StruckMoments.Telling(struck[(shape, s)]);
        if (shape.Frets[s] is not { } fret || moments.Count == 0)
            return null;
        var others = SongNotes.Sounding(shape, neck, except: s);
        var evidence = new StringEvidence(starts, [.. moments.Select(m => (m.Time, neck.MidiAt(s, fret), others))]);
        var by = evidence.Rival(d => fret + d >= 0).By;
        return new(s, fret, fret + by, model.LogOdds(evidence.Features(by)), evidence.RivalStarts(by));
    }

    private Finding Told(ChordUse use, List<WeighedString> strings, Place where)
    {
        var worst = strings.MinBy(s => s.LogOdds)!;
        var (centre, tuning) = (song.Key.Value.Centre, song.Tuning.Value);
        string Sounding(int fret) => Pitch.FromMidi(neck.MidiAt(worst.StringIndex, fret), centre).ToString();
        var name = $"string {tuning.Count - worst.StringIndex} ({tuning.Strings[worst.StringIndex]})";
        var heard = worst.RivalStarts ? $"{name} sounds {Sounding(worst.Rival)}, not {Sounding(worst.Fret)}" : $"{Sounding(worst.Fret)} on {name} isn't heard";
        var finding = Finding.Weighed(ClaimKind.Shape, worst.LogOdds, where, $"{use.Name} as {use.Shape}", heard);
        // The search takes longer than all else, and a shape that can't be doubtful is offered no other.
        if (!CheckCalibration.Shipped.MayBeDoubtful(finding))
            return finding;
        var isAlone = worst.RivalStarts && strings.TrueForAll(s => s == worst || s.LogOdds > 0);
        var better = isAlone ? Shape.Of(use.Shape!.Frets.SetItem(worst.StringIndex, worst.Rival))
            : new BetterShape(starts, neck).Of(use.Shape!, use.Chord, Times(use.Shape!));
        return better == use.Shape ? finding : finding.Fretting(song, use.Name, better) with { Rival = new(better.ToString(), -worst.LogOdds) };
    }

    /// <summary>When a shape is struck.</summary>
    private double[] Times(Shape shape) => [.. Enumerable.Range(0, shape.Frets.Length).SelectMany(s => struck[(shape, s)]).Select(m => m.Time).Distinct()];

    private sealed record WeighedString(int StringIndex, int Fret, int Rival, double LogOdds, bool RivalStarts);
}
