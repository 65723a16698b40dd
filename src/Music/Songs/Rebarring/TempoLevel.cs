using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Rebarring;

/// <summary>The level at which beats are counted, against another: half as many, twice as many, a third …</summary>
public readonly record struct TempoLevel
{
    /// <summary>How far a tempo may lie from a level and still mean it.</summary>
    private const double Near = 0.04;

    private readonly int overLessOne;
    private readonly int underLessOne;

    private TempoLevel(int over, int under) => (overLessOne, underLessOne) = (over - 1, under - 1);

    /// <summary>New beats for every <see cref="Under"/> of the old.</summary>
    public int Over => overLessOne + 1;

    public int Under => underLessOne + 1;

    public static TempoLevel Same => default;

    /// <summary>The levels that have a name, and the two between a beat in two and a beat in three.</summary>
    public static ImmutableArray<(string Name, TempoLevel Level)> Named { get; } =
        [("half", new(1, 2)), ("double", new(2, 1)), ("third", new(1, 3)), ("triple", new(3, 1)), ("2/3", new(2, 3)), ("3/2", new(3, 2))];

    public TempoLevel Inverse => new(Under, Over);

    public double Ratio => (double)Over / Under;

    public static bool TryParse(string text, out TempoLevel level)
    {
        level = Named.FirstOrDefault(n => n.Name == text).Level;
        return level != Same;
    }

    /// <summary>The level that leads from one tempo to another, within 4 in a hundred; null where none does.</summary>
    public static TempoLevel? Between(double from, double to)
    {
        var (level, off) = Named.Select(n => n.Level).Prepend(Same).Select(l => (l, Off: Math.Abs(to / (from * l.Ratio) - 1))).MinBy(l => l.Off);
        return off <= Near ? level : null;
    }

    /// <summary>A stretch of old beats in new ones.</summary>
    public Beats Of(Beats old) => old * Over / Under;

    /// <summary>A stretch of new beats in old ones.</summary>
    public Beats Back(Beats beats) => beats * Under / Over;

    public override string ToString()
    {
        var self = this;
        return Named.FirstOrDefault(n => n.Level == self).Name ?? "same";
    }
}
