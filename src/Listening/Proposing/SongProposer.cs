using System.Collections.Immutable;
using Harkbook.Listening.Proposing.Hands;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// Makes the first draft of a song from what was heard. Every claim in it is marked heard, with the confidence of the estimate that it comes from;
/// what nothing was heard of is left out or assumed, never guessed.
/// <list type="bullet">
/// <item>Bars run from downbeat to downbeat. A pick-up gets a whole bar, silent at first; an odd number of beats gets a meter of its own.</item>
/// <item>Anchors are the fewest whose straight lines keep every heard beat within 25 ms.</item>
/// <item>The key heard longest is the song's; a section changes to another at the bar line nearest to where it was heard to start.</item>
/// <item>A harmonica gets its key, and its holes a place on quarters of the beat; a voice gets the rhythm of its notes, without words; what it,
/// a whistle or a fiddle surely sounds is the tune.</item>
/// <item>Each chord gets one shape, chosen over the whole song: what sounded first, then the hand's comfort and its way to the other chords. Shapes and
/// picked notes are as sure as they say if the tuning is right.</item>
/// <item>Sections are named by singing and repetition (<see cref="SectionNaming"/>); alike ones are read together (<see cref="RepeatedBars"/>).</item>
/// <item>Strummed bars get strokes, picked ones notes on strings (<see cref="HandsPlan"/>); a line of single notes gets no shapes.</item>
/// </list>
/// </summary>
public static class SongProposer
{
    /// <param name="recordingPath">Relative to the folder that the song will lie in.</param>
    /// <param name="options">What is sure enough to be written; the usual where nobody says.</param>
    public static Song Propose(Hearing hearing, string title, string recordingPath, DraftOptions? options = null) =>
        SureEnough.Of(All(hearing, title, recordingPath), options ?? new());

    /// <summary>How many claims of a proposal stay out of it, since they aren't sure enough.</summary>
    public static int LeftOut(Hearing hearing, Song proposed) => SureEnough.Missing(All(hearing, proposed.Title, ""), proposed);

    /// <summary>The shapes of the song's chords.</summary>
    internal static ImmutableArray<ChosenShape> ShapesOf(Hearing hearing)
    {
        var line = BeatAxis.Of(hearing.Beats, hearing.Meter.Best, hearing.Tempo.Best);
        return line.Bars.IsEmpty ? [] : new ShapeChoice(hearing, new ChordPlacing(line, hearing.Meter.Best.DivisionsPerBeat).Place(hearing.Chords)).Choose();
    }

    private static Song All(Hearing hearing, string title, string recordingPath)
    {
        var (claims, meter) = (hearing.Claims, hearing.Meter.Best);
        var line = BeatAxis.Of(hearing.Beats, meter, hearing.Tempo.Best);
        var placing = new ChordPlacing(line, meter.DivisionsPerBeat);
        var chords = line.Bars.IsEmpty ? [] : placing.Place(hearing.Chords);
        var shapes = new ShapeChoice(hearing, chords).Choose();
        var shapeOf = shapes.ToDictionary(s => s.Chord, s => s.Shape);
        var plan = SectionPlan.Of(hearing.Sections, hearing.Lines, line);
        int[] sectionEnds = [.. plan.Select(p => line.Bars[p.EndBar - 1].EndBeat)];
        var harp = new HarpPlacing(hearing.Lines.Of(LineKind.Harmonica), line, meter.IsCompound, sectionEnds);
        var sung = new SungPlacing(hearing.Lines.Of(LineKind.Voice), line, meter.IsCompound, sectionEnds);
        var bars = line.Bars.Select((bar, i) => new Bar { Number = i + 1, Meter = bar.Meter, Chords = placing.InBar(bar, chords, shapeOf),
            Sung = sung.InBar(bar), Harp = harp.InBar(bar) }).ToImmutableArray();
        var hands = new HandsPlan(hearing, line, plan, bars);
        bars = [.. bars.Select((bar, i) => bar with { Strums = hands.Strums(i), Picked = hands.Picked(i),
            Chords = hands.IsLine(i) ? [.. bar.Chords.Select(c => c with { Value = c.Value with { Shape = null } })] : bar.Chords })];
        var tune = new TunePlacing(hearing.Lines, line, meter.IsCompound, sectionEnds, plan);
        var length = Ceiling(hearing.Recording.Length);
        var key = KeyOf(hearing);
        if (claims.Keys.Any(k => k.Key == key.Value))
            key = key with { Standing = Standing.Decided };
        var (anchors, keys) = (new AnchorPlan(line, length, claims.Beats), new KeyPlan(hearing.Keys, line, key.Value));
        bars = RepeatedBars.Of([.. bars.Select((bar, i) => bar with { Tune = tune.InBar(line.Bars[i], i, keys.At(i)) })], plan);
        return new()
        {
            Title = title,
            Recording = new(recordingPath, hearing.Recording.ContentHash, length),
            ReferencePitch = new(Hertz.FromHertz(Math.Round(hearing.ReferencePitch.Best.Value, 2)),
                Said(claims.ReferencePitch is not null, hearing.ReferencePitch)),
            Tuning = new(hearing.Tuning.Best.Tuning, Said(claims.Tuning is not null, hearing.Tuning)),
            Capo = new(hearing.Tuning.Best.Capo, Said(claims.Capo is not null, hearing.Tuning)),
            Meter = new(meter, Said(claims.Meter is not null, hearing.Meter)),
            Tempo = hearing.Tempo.Best is >= 20 and <= 400 ? new(Math.Round(hearing.Tempo.Best, 1), Said(claims.Tempo is not null, hearing.Tempo))
                : new(120, Standing.Assumed),
            Key = key,
            TunePlayer = tune.Player,
            Harp = Harp(hearing.Lines.Of(LineKind.Harmonica), claims.HarpKey is not null),
            Shapes = [.. shapes.Select(s => new NamedShape(ChordSymbol.Write(s.Chord), s.Shape,
                Standing.HeardToThePercent(s.Match)))],
            Sections = [.. plan.Select(p => new Section(p.Name, anchors.In(p, isLast: p.EndBar == bars.Length),
                bars[p.FirstBar..p.EndBar]) { Standing = p.Standing, Keys = keys.In(p), TunePlayer = tune.PlayerIn(p) })],
        };
    }

    /// <summary>Assumed when none was heard.</summary>
    private static Fact<Key> KeyOf(Hearing hearing) =>
        hearing.MainKey is { } main ? new(main.Best, Said(isTold: false, main)) : new(new(PitchName.Parse("C"), Mode.Major), Standing.Assumed);

    /// <summary>As sure as that there is a harmonica and that it is this one.</summary>
    private static Fact<HarpReference>? Harp(HeardLine? heard, bool isTold) => heard?.Harp is { } harp
        ? new(new(harp.Best.Key, HarpLayout.Richter.Name), isTold ? Standing.Decided : Standing.HeardToThePercent(heard.Kind.Confidence * harp.Confidence))
        : null;

    private static Standing Said<T>(bool isTold, Distribution<T> estimate) => isTold ? Standing.Decided : Standing.HeardToThePercent(estimate.Confidence);

    /// <summary>Whole milliseconds, never short of the recording's end, so that an anchor there stays inside.</summary>
    private static Seconds Ceiling(Seconds length) => Seconds.FromSeconds((double)(decimal.Ceiling((decimal)length.Value * 1000) / 1000));
}
