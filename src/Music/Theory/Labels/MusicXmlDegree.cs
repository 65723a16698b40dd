using System.Collections.Immutable;

namespace Harkbook.Music.Theory.Labels;

/// <summary>
/// One "degree" element of MusicXML 4.0. Its alteration is counted from the degree that the kind holds when it alters or
/// subtracts, and from a dominant chord when it adds: an added minor seventh is 7 with alteration 0.
/// </summary>
public readonly record struct MusicXmlDegree(int Value, int Alter, MusicXmlDegreeType Type)
{
    internal static MusicXmlDegree Adding(Interval interval)
    {
        var (degree, alteration) = interval.Degree;
        return new(degree, alteration + SeventhShift(degree), MusicXmlDegreeType.Add);
    }

    internal ImmutableArray<Interval> Change(ImmutableArray<Interval> held)
    {
        var value = Value;
        var index = held.Select((interval, i) => (interval, i)).Where(h => h.interval.Degree.Degree == value).Select(h => h.i).DefaultIfEmpty(-1).First();
        return Type switch
        {
            MusicXmlDegreeType.Subtract when index >= 0 => held.RemoveAt(index),
            MusicXmlDegreeType.Alter when index >= 0 => held.SetItem(index, Interval.FromDegree(Value, held[index].Degree.Alteration + Alter)),
            MusicXmlDegreeType.Subtract => held,
            _ => held.Add(Interval.FromDegree(Value, Alter - SeventhShift(Value))),
        };
    }

    private static int SeventhShift(int degree) => (degree - 1) % 7 == 6 ? 1 : 0;
}

/// <summary>What a degree element does; written in lower case.</summary>
public enum MusicXmlDegreeType
{
    Add,
    Alter,
    Subtract,
}
