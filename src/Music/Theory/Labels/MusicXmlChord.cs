using System.Collections.Immutable;

namespace Harkbook.Music.Theory.Labels;

/// <summary>
/// A chord's kind as MusicXML 4.0 writes it: a "kind" and the "degree" elements that change it.
/// Cadd9 is major with 9 added; C7sus4 is suspended-fourth with 7 added.
/// </summary>
public sealed record MusicXmlChord(string Kind, ImmutableArray<MusicXmlDegree> Degrees)
{
    /// <summary>The kind that needs the fewest changes, with the changes.</summary>
    public static MusicXmlChord Of(ChordQuality quality) =>
        quality.Intervals.IsEmpty
            ? new("none", [])
            : MusicXmlKind.All.Where(k => k.Quality is { Intervals.IsEmpty: false })
                .Select(k => new MusicXmlChord(k.Value, Changes(k.Quality!, quality)))
                .MinBy(c => c.Degrees.Length)!;

    /// <summary>The intervals that it stands for; null where the kind is functional (Neapolitan …) or not one of the standard's.</summary>
    public ChordQuality? Quality
    {
        get
        {
            var start = Kind == "other" ? ChordQuality.FromDegrees("1") : MusicXmlKind.All.FirstOrDefault(k => k.Value == Kind)?.Quality;
            return start is null ? null : ChordQuality.Of(Degrees.Aggregate(start.Intervals, (held, degree) => degree.Change(held)));
        }
    }

    public bool Equals(MusicXmlChord? other) => other is not null && Kind == other.Kind && Degrees.AsSpan().SequenceEqual(other.Degrees.AsSpan());

    public override int GetHashCode() => Degrees.Aggregate(Kind.GetHashCode(StringComparison.Ordinal), HashCode.Combine);

    // Subtractions go first, so that a degree never stands twice while the list is worked through.
    private static ImmutableArray<MusicXmlDegree> Changes(ChordQuality kind, ChordQuality quality)
    {
        var missing = kind.Intervals.Except(quality.Intervals).ToList();
        var extra = quality.Intervals.Except(kind.Intervals).ToList();
        var altered = extra.Select(e => (To: e, From: missing.Where(m => m.Steps == e.Steps).Cast<Interval?>().FirstOrDefault()))
            .Where(a => a.From is not null).DistinctBy(a => a.To.Steps).ToList();
        return
        [
            .. missing.Except(altered.Select(a => a.From!.Value)).Select(m => new MusicXmlDegree(m.Degree.Degree, 0, MusicXmlDegreeType.Subtract)),
            .. altered.Select(a => new MusicXmlDegree(a.To.Degree.Degree, a.To.Degree.Alteration - a.From!.Value.Degree.Alteration, MusicXmlDegreeType.Alter)),
            .. extra.Except(altered.Select(a => a.To)).Select(MusicXmlDegree.Adding),
        ];
    }
}
