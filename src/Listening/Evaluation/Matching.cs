namespace Harkbook.Listening.Evaluation;

/// <summary>The largest one-to-one matching between two lists, by augmenting paths (Kuhn 1955).</summary>
public static class Matching
{
    /// <param name="candidates">For each item of the first list, the indices of the second that it may be matched with.</param>
    /// <param name="secondCount">The length of the second list.</param>
    /// <returns>For each item of the first list the index matched with it, or −1.</returns>
    public static int[] Largest(IReadOnlyList<IReadOnlyList<int>> candidates, int secondCount)
    {
        var ofFirst = new int[candidates.Count];
        var ofSecond = new int[secondCount];
        Array.Fill(ofFirst, -1);
        Array.Fill(ofSecond, -1);
        var visited = new int[secondCount];
        for (var i = 0; i < candidates.Count; i++)
            Augment(i, i + 1);
        return ofFirst;

        bool Augment(int first, int round)
        {
            foreach (var second in candidates[first])
            {
                if (visited[second] == round)
                    continue;
                visited[second] = round;
                if (ofSecond[second] >= 0 && !Augment(ofSecond[second], round))
                    continue;
                ofFirst[first] = second;
                ofSecond[second] = first;
                return true;
            }
            return false;
        }
    }

    /// <summary>F of events matched one to one within a window on either side (its ends included).</summary>
    /// <param name="reference">True times in seconds.</param>
    /// <param name="estimated">Estimated times in seconds.</param>
    public static FScore Events(IReadOnlyList<double> reference, IReadOnlyList<double> estimated, double window)
    {
        var sorted = estimated.Order().ToArray();
        var candidates = reference.Order()
            .Select(r => (IReadOnlyList<int>)Within(sorted, r - window, r + window))
            .ToArray();
        var matched = Largest(candidates, sorted.Length).Count(m => m >= 0);
        return FScore.FromCounts(matched, reference.Count, sorted.Length);
    }

    private static List<int> Within(double[] sorted, double from, double to)
    {
        var found = new List<int>();
        var index = Array.BinarySearch(sorted, from);
        index = index < 0 ? ~index : index;
        while (index > 0 && sorted[index - 1] >= from)
            index--;
        for (; index < sorted.Length && sorted[index] <= to; index++)
            found.Add(index);
        return found;
    }
}
