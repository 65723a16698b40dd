using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>What a recording's spans say of chords and keys.</summary>
/// <param name="Fits">For each span, how well each state of <see cref="ChordVocabulary"/> explains it (natural log units).</param>
/// <param name="Change">For each span, the chance that the chord changes at its start.</param>
/// <param name="Contents">For each span, what sounds in it.</param>
/// <param name="Keys">For each span, log chances of the 24 keys, in the order of <see cref="Keys.KeyCandidate"/>; null where they weren't weighed.</param>
internal sealed record WeighedChords(IReadOnlyList<ChordSpan> Spans, double[][] Fits, double[] Change, PitchClassContent[] Contents, double[][]? Keys)
{
    /// <summary>A person who puts a border where none was sees a change there as easily as not.</summary>
    private const double ChangeAtCut = 0.5;

    /// <summary>A border nearer than this to another is that one.</summary>
    private static readonly Seconds Nearest = Seconds.FromMilliseconds(60);

    /// <summary>The same with borders where there were none; both parts of a span say what it said, each by its length.</summary>
    /// <param name="times">Any order.</param>
    public WeighedChords CutAt(IEnumerable<Seconds> times)
    {
        var cut = this;
        foreach (var time in times)
        {
            var i = cut.Spans.ToList().FindIndex(s => s.Start + Nearest < time && time + Nearest < s.End);
            if (i >= 0)
                cut = cut.CutAt(i, time);
        }
        return cut;
    }

    private WeighedChords CutAt(int i, Seconds time)
    {
        var share = (time - Spans[i].Start) / (Spans[i].End - Spans[i].Start);
        return new(
            [.. Spans.Take(i), Spans[i] with { End = time }, new(time, Spans[i].End, SpanPlace.Between), .. Spans.Skip(i + 1)],
            [.. Fits[..i], Array.ConvertAll(Fits[i], f => f * share), Array.ConvertAll(Fits[i], f => f * (1 - share)), .. Fits[(i + 1)..]],
            [.. Change[..(i + 1)], ChangeAtCut, .. Change[(i + 1)..]],
            [.. Contents[..(i + 1)], .. Contents[i..]],
            Keys is null ? null : [.. Keys[..(i + 1)], .. Keys[i..]]);
    }
}
