using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>Between which frets of a string a finger hammers or pulls: within the hand's reach, and from or to the open string anywhere.</summary>
internal sealed class JoinReach(Hand hand, Capo capo)
{
    /// <param name="stringIndex">0 is the lowest.</param>
    /// <param name="from">A fret, counted as shapes count.</param>
    public bool Covers(int stringIndex, int from, int to)
    {
        var (low, high) = (Math.Min(from, to), Math.Max(from, to));
        return low == 0 || hand.Distance(low + capo.Raises(stringIndex), high + capo.Raises(stringIndex)) <= hand.LongestReach;
    }
}
