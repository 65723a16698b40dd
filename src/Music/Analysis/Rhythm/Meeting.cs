using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>A place in a bar where a syllable starts, the guitar strikes, or both.</summary>
/// <param name="At">Felt beats from the bar's start.</param>
/// <param name="Syllable">Null where none starts.</param>
/// <param name="GuitarStrikes">Whether a strum, a muted stroke or a picked note starts here.</param>
public readonly record struct Meeting(Beats At, string? Syllable, bool GuitarStrikes)
{
    public bool VoiceStarts => Syllable is not null;

    public bool IsTogether => VoiceStarts && GuitarStrikes;
}
