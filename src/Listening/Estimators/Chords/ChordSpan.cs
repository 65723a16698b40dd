using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>A stretch that holds one chord, and where in the bar it starts.</summary>
internal readonly record struct ChordSpan(Seconds Start, Seconds End, SpanPlace Place)
{
    /// <summary>Beats whose mean confidence lies below this are not used.</summary>
    private const double LeastBeatConfidence = 0.15;

    /// <summary>Frame length where beats are missing or not to be trusted.</summary>
    private static readonly Seconds FixedFrame = Seconds.FromSeconds(0.5);

    /// <summary>Beats longer than this are halved.</summary>
    private static readonly Seconds SlowBeat = Seconds.FromSeconds(0.75);

    /// <summary>What sounds in each of the spans.</summary>
    public static PitchClassContent[] Contents(NotePosteriorgram evidence, IReadOnlyList<ChordSpan> spans, CancellationToken ct)
    {
        var contents = new PitchClassContent[spans.Count];
        Parallel.For(0, spans.Count, new ParallelOptions { CancellationToken = ct }, i =>
            contents[i] = PitchClassContent.Between(evidence, spans[i].Start, spans[i].End));
        return contents;
    }

    /// <summary>Beats or half beats, from the start of the evidence to its end; fixed frames where beats can't be trusted.</summary>
    public static List<ChordSpan> Of(NotePosteriorgram evidence, ImmutableArray<HeardBeat> beats)
    {
        var end = evidence.Hop * evidence.Frames;
        var trusted = beats.Length >= 4 && beats.Average(b => b.Confidence) >= LeastBeatConfidence;
        var marks = trusted ? OnBeats(beats) : Fixed(end);
        // A span needs a frame to hear anything in; beats that fall together count as one.
        marks = [.. marks.Where((m, i) => m.Start + evidence.Hop < end && (i == 0 || m.Start - marks[i - 1].Start >= evidence.Hop))];
        if (marks.Count == 0 || marks[0].Start.Value > 0.05)
            marks.Insert(0, (default, SpanPlace.Downbeat));
        return [.. marks.Select((m, i) => new ChordSpan(i == 0 ? default : m.Start, i + 1 < marks.Count ? marks[i + 1].Start : end, m.Place))];
    }

    private static List<(Seconds Start, SpanPlace Place)> OnBeats(ImmutableArray<HeardBeat> beats)
    {
        var halved = (beats[^1].Time - beats[0].Time) * (1.0 / (beats.Length - 1)) > SlowBeat;
        var marks = new List<(Seconds, SpanPlace)>();
        for (var i = 0; i < beats.Length; i++)
        {
            marks.Add((beats[i].Time, beats[i].PositionInBar == 1 ? SpanPlace.Downbeat : SpanPlace.Beat));
            if (halved && i + 1 < beats.Length)
                marks.Add(((beats[i].Time + beats[i + 1].Time) * 0.5, SpanPlace.Between));
        }
        return marks;
    }

    private static List<(Seconds Start, SpanPlace Place)> Fixed(Seconds end) =>
        [.. Enumerable.Range(0, (int)Math.Ceiling(end / FixedFrame)).Select(i => (FixedFrame * i, SpanPlace.Unknown))];
}
