namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// Turns features into two chances, "starts here" and "sounds here", by one small network shared by all pitches.
/// The weights are in note-weights.txt beside this file, which tells what they were fitted to.
/// </summary>
internal static class NoteClassifier
{
    private static readonly Lazy<SmallNetwork> Network = new(() => SmallNetwork.Shipped("Estimators.Notes.note-weights.txt", NoteFeatures.Count));

    /// <param name="features">Standardised in place.</param>
    public static (float Onset, float Sounding) Weigh(Span<float> features)
    {
        var said = Network.Value.Weigh(features);
        return ((float)LogOdds.Chance(said[0]), (float)LogOdds.Chance(said[1]));
    }
}
