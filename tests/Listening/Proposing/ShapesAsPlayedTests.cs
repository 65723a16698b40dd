using System.Collections.Immutable;
using Harkbook.Listening.Proposing;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing;

// Shapes of a chord dictionary (chords-db 0.5.1, MIT), and a barre shape and an altered-tuning one that are common practice.
public class ShapesAsPlayedTests
{
    [Theory]
    [InlineData("E2 A2 D3 G3 B3 E4", 0, "C", "x32010")]
    [InlineData("E2 A2 D3 G3 B3 E4", 0, "C", "x35553")]
    [InlineData("E2 A2 D3 G3 B3 E4", 2, "A", "320003")]
    [InlineData("E2 A2 D3 G3 B3 E4", 0, "Fmaj7", "xx3210")]
    [InlineData("D2 G2 D3 G3 B3 D4", 0, "C", "555555")]
    [InlineData("D2 A2 D3 G3 A3 D4", 0, "D5", "000200")]
    public void TheShapeIsTheOneOnWhichNotesWerePlaced(string tuning, int capo, string chord, string shape)
    {
        var hearing = Hearing(tuning, capo, chord, Shape.Parse(shape), missed: null);

        Assert.Equal(shape, Proposed(hearing));
    }

    [Theory]
    [InlineData("022100", "E", 5)]
    [InlineData("320003", "G", 3)]
    public void AnOvertoneThatWasMissedIsFilledIn(string shape, string chord, int missed) =>
        Assert.Equal(shape, Proposed(Hearing("E2 A2 D3 G3 B3 E4", 0, chord, Shape.Parse(shape), missed)));

    // By hand: x32130 sounds D above a C chord, x77085 sounds E, A, G and A, no B and no D, so it is no G. Another shape of the chord is proposed, or none.
    [Theory]
    [InlineData("E2 A2 D3 G3 B3 E4", 0, "C", "x32130")]
    [InlineData("E2 A2 D3 G3 B3 E4", 0, "G", "x77085")]
    [InlineData("E2 A2 D3 G3 B3 E4", 2, "C", "x32010")]
    [InlineData("D2 A2 D3 F#3 A3 D4", 0, "Am", "x77777")]
    public void NoShapeContradictsItsChord(string tuning, int capo, string chord, string played)
    {
        var song = SongProposer.Propose(Hearing(tuning, capo, chord, Shape.Parse(played), missed: null), "Quay", "quay.wav");
        Assert.Equal(chord, song.Bars.First().Chords[0].Value.Name);
        Assert.DoesNotContain(song.Shapes, s => s.Shape.ToString() == played);
        Assert.DoesNotContain(SongText.Parse(SongText.Write(song), "t").Diagnostics, d => d.Code == DiagnosticCode.ShapeContradicts);
    }

    private static string Proposed(Hearing hearing) => SongProposer.Propose(hearing, "Quay", "quay.wav").Shapes.Single().Shape.ToString();

    private static Hearing Hearing(string tuning, int capo, string chord, Shape shape, int? missed)
    {
        var guitar = new HeardTuning(Tuning.Parse(tuning), Capo.At(capo), null);
        return HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 16, 0), 1, 2, 3, 4), [HandMade.Chord(chord, 0, 8)], length: 8) with
        {
            Tuning = new(new Candidate<HeardTuning>(guitar, 1)),
            Notes = [.. Enumerable.Range(0, 8).SelectMany(i => Strum(shape, guitar, i).Where(n => n.Place!.StringIndex != missed))],
        };
    }

    private static ImmutableArray<HeardNote> Strum(Shape shape, HeardTuning guitar, double at) =>
    [
        .. shape.PitchOfEachString(guitar.Tuning, guitar.Capo).Select((pitch, s) => (pitch, s)).Where(p => p.pitch is not null)
            .Select(p => new HeardNote(p.pitch!.Value.Midi, Seconds.FromSeconds(at), Seconds.FromSeconds(at + 0.9), 0.9, 0.5,
                new(p.s, shape.Frets[p.s]!.Value, 0.9))),
    ];
}
