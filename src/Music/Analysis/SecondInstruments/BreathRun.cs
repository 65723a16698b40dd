using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.SecondInstruments;

/// <summary>Notes in a row that are all blown or all drawn, without a rest to breathe in.</summary>
/// <param name="First">Where its first note starts; the length is that note's.</param>
/// <param name="Last">Where its last note starts.</param>
/// <param name="Sounding">How long its notes sound, shorter gaps left out.</param>
/// <param name="RestAfter">The silence before the next run, zero where the breath turns at once; null after the last.</param>
public sealed record BreathRun(Breath Breath, SongPlace First, SongPlace Last, Seconds Sounding, Seconds? RestAfter);

/// <summary>Runs between two rests that are long enough to breathe in: here the player lives on what the notes themselves give and take.</summary>
/// <param name="RestAfter">The rest that ends it; null after the last note.</param>
public sealed record BreathPassage(int FirstBar, int LastBar, Seconds Out, Seconds In, Seconds? RestAfter)
{
    /// <summary>Breath taken in above what goes out: above zero the lungs fill, below they empty.</summary>
    public Seconds Net => In - Out;
}
