using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Strings by the pitch of the open string without capo. Where two strings share a pitch, the first label means the higher-lying one.</summary>
internal static class StringLabels
{
    /// <summary>The index of each label's string (0 = lowest), -1 where the tuning has none left of that pitch.</summary>
    public static ImmutableArray<int> Find(IEnumerable<string> labels, Tuning tuning)
    {
        var taken = new HashSet<int>();
        return [.. labels.Select(label => Take(label, tuning, taken))];
    }

    public static int Take(string label, Tuning tuning, HashSet<int> taken)
    {
        if (!Pitch.TryParse(label, out var pitch))
            return -1;
        for (var i = tuning.Count - 1; i >= 0; i--)
        {
            if (tuning.Strings[i].Midi == pitch.Midi && taken.Add(i))
                return i;
        }
        return -1;
    }
}
