namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// What the notes do at a moment that might be a beat or the start of a bar. Long notes, low notes, loud ones and changes of harmony
/// fall on strong beats more often than between them (F. Lerdahl and R. Jackendoff, "A Generative Theory of Tonal Music", MIT Press
/// 1983: the metrical preference rules). All values grow with what speaks for a beat.
/// </summary>
/// <param name="Thumb">Low notes struck alone or with one other, by their number and length in beats.</param>
/// <param name="Low">The length in beats, 1 at most, of the lowest note struck, where it is low.</param>
/// <param name="Change">How different the pitch classes of the beat after are from those of the beat before, 0 to 1.</param>
/// <param name="BassChange">1 where the lowest pitch class of the beat after is another than before.</param>
/// <param name="Length">The length in beats, 2 at most, until the next stroke, where one falls here.</param>
/// <param name="Loudness">The strengths of the notes struck.</param>
/// <param name="Strokes">1 where something is struck.</param>
internal readonly record struct Accent(double Thumb, double Low, double Change, double BassChange, double Length, double Loudness, double Strokes)
{
    public const int Count = 7;

    public double[] Values => [Thumb, Low, Change, BassChange, Length, Loudness, Strokes];
}
