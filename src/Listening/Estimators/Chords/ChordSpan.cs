using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>A stretch that holds one chord, and where in the bar it starts.</summary>
internal readonly record struct ChordSpan(Seconds Start, Seconds End, SpanPlace Place)
{
    /// <summary>What sounds in each of the spans.</summary>
    public static PitchClassContent[] Contents(NotePosteriorgram evidence, IReadOnlyList<ChordSpan> spans, CancellationToken ct)
    {
        var contents = new PitchClassContent[spans.Count];
        Parallel.For(0, spans.Count, new ParallelOptions { CancellationToken = ct }, i =>
            contents[i] = PitchClassContent.Between(evidence, spans[i].Start, spans[i].End));
        return contents;
    }

    /// <summary>Beats or half beats, from the start of the evidence to its end; fixed frames where beats can't be trusted.</summary>
    public static List<ChordSpan> Of(NotePosteriorgram evidence, ImmutableArray<HeardBeat> beats, ChordOptions options)
    {
        var end = evidence.Hop * evidence.Frames;
        var trusted = beats.Length >= 4 && beats.Average(b => b.Confidence) >= options.LeastBeatConfidence;
        var marks = trusted ? OnBeats(beats, options) : Fixed(end, options);
        // A span needs a frame to hear anything in; beats that fall together count as one.
        marks = [.. marks.Where((m, i) => m.Start + evidence.Hop < end && (i == 0 || m.Start - marks[i - 1].Start >= evidence.Hop))];
        if (marks.Count == 0 || marks[0].Start.Value > 0.05)
            marks.Insert(0, (default, SpanPlace.Downbeat));
        return [.. marks.Select((m, i) => new ChordSpan(i == 0 ? default : m.Start, i + 1 < marks.Count ? marks[i + 1].Start : end, m.Place))];
    }

    private static List<(Seconds Start, SpanPlace Place)> OnBeats(ImmutableArray<HeardBeat> beats, ChordOptions options)
    {
        var halved = (beats[^1].Time - beats[0].Time) * (1.0 / (beats.Length - 1)) > options.SlowBeat;
        var marks = new List<(Seconds, SpanPlace)>();
        for (var i = 0; i < beats.Length; i++)
        {
            marks.Add((beats[i].Time, beats[i].PositionInBar == 1 ? SpanPlace.Downbeat : SpanPlace.Beat));
            if (halved && i + 1 < beats.Length)
                marks.Add(((beats[i].Time + beats[i + 1].Time) * 0.5, SpanPlace.Between));
        }
        return marks;
    }

    private static List<(Seconds Start, SpanPlace Place)> Fixed(Seconds end, ChordOptions options) =>
        [.. Enumerable.Range(0, (int)Math.Ceiling(end / options.FixedFrame)).Select(i => (options.FixedFrame * i, SpanPlace.Unknown))];
}
