using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>How a beat is divided: the places in it, as fractions of it, at which something may be played.</summary>
internal sealed record Subdivision(string Name, ImmutableArray<Beats> Places)
{
    /// <summary>Of a beat that is halved: the simpler ones first.</summary>
    public static ImmutableArray<Subdivision> Simple { get; } =
        [Even("eighths", 2), new("swung eighths", [Beats.Zero, Beats.Fraction(2, 3)]), Even("triplets", 3), Even("sixteenths", 4)];

    /// <summary>Of a dotted beat.</summary>
    public static ImmutableArray<Subdivision> Compound { get; } = [Even("eighths", 3), Even("sixteenths", 6)];

    /// <summary>The place nearest to a moment (in beats), counted from the same beat, and how far off the moment is.</summary>
    public (Beats At, double Off) Nearest(double moment)
    {
        var beat = (int)Math.Floor(moment);
        var best = (At: Beats.Whole(beat + 1), Off: moment - beat - 1);
        foreach (var place in Places)
        {
            if (moment - beat - place.Value is var off && Math.Abs(off) < Math.Abs(best.Off))
                best = (Beats.Whole(beat) + place, off);
        }
        return best;
    }

    private static Subdivision Even(string name, int parts) => new(name, [.. Enumerable.Range(0, parts).Select(i => Beats.Fraction(i, parts))]);
}
