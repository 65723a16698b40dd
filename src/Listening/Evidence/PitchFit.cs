namespace Harkbook.Listening.Evidence;

/// <summary>How well some pitches explain what is heard.</summary>
internal static class PitchFit
{
    /// <summary>What they sound of it, over that, what they leave out and what they add unheard: 0 to 1.</summary>
    /// <param name="strength">How strongly each MIDI pitch is heard, 0 to 1; what lies beyond isn't.</param>
    public static double Of(ReadOnlySpan<double> strength, IReadOnlySet<int> sounds)
    {
        var (explained, unheard, all) = (0.0, 0.0, 0.0);
        foreach (var one in strength)
            all += one;
        foreach (var midi in sounds)
        {
            if (midi < 0 || midi >= strength.Length)
                continue;
            explained += strength[midi];
            unheard += 1 - strength[midi];
        }
        return explained == 0 ? 0 : explained / (all + unheard);
    }
}
