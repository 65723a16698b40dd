using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>The sung rhythm of one bar by three published measures.</summary>
/// <param name="Lines">Voice and guitar.</param>
/// <param name="Syncopation">After Longuet-Higgins and Lee, counting against the bar before too.</param>
/// <param name="BeatDistance">Weighted note-to-beat distance, the sum.</param>
/// <param name="Keith">Null where the measure has no answer.</param>
/// <param name="EntersBeat">Whether a syllable starts on the first beat.</param>
/// <param name="IsHeldInto">Whether a syllable of the bar before sounds on into this one.</param>
public sealed record SungBar(TwoParts Lines, int Syncopation, double BeatDistance, int? Keith, bool EntersBeat, bool IsHeldInto)
{
    public int Number => Lines.Bar.Number;

    public IReadOnlyCollection<Beats> Onsets => [.. Lines.Voice.Select(v => v.At)];
}
