using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking.Shapes;

/// <summary>
/// The shape that explains best what starts while a claimed one is held: the same with one string a fret or two off or silent, or another way to play
/// the chord.
/// </summary>
internal sealed class BetterShape(HeardStarts starts, Fretboard neck)
{
    private const double Reach = 0.06;
    private const int Ways = 40;

    /// <param name="times">When the claimed shape is struck, in seconds.</param>
    /// <returns>With fingers where it is another way to play the chord; the claimed one where nothing explains more.</returns>
    public Shape Of(Shape claimed, Chord chord, IReadOnlyCollection<double> times)
    {
        var strength = new double[128];
        for (var midi = 0; midi < strength.Length; midi++)
            strength[midi] = times.Average(t => LogOdds.Chance(starts.At(midi, t, Reach)));
        var ways = VoicingSearch.Find(chord, neck.Tuning, neck.Capo, new() { Hand = Hand.On(neck.Tuning), Results = Ways });
        return Beside(claimed).Concat(ways.Select(v => Fingered(v.Shape))).Prepend(claimed)
            .MaxBy(s => PitchFit.Of(strength, SongNotes.Sounding(s, neck).ToHashSet()))!;
    }

    private static IEnumerable<Shape> Beside(Shape claimed)
    {
        for (var s = 0; s < claimed.Frets.Length; s++)
        {
            if (claimed.Frets[s] is not { } fret)
                continue;
            yield return Shape.Of(claimed.Frets.SetItem(s, null));
            for (var other = Math.Max(0, fret - StringEvidence.Farthest); other <= fret + StringEvidence.Farthest; other++)
                yield return Shape.Of(claimed.Frets.SetItem(s, other));
        }
    }

    /// <summary>A shape of open strings has no fingers to give.</summary>
    private static Shape Fingered(Shape shape) => shape.FirstFret is null ? shape.WithoutFingers() : shape;
}
