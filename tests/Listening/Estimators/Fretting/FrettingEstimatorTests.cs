using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Fretting;

public class FrettingEstimatorTests
{
    private static readonly HeardTuning Standard = new(Tuning.Standard, Capo.None, "standard");

    /// <summary>First shapes of the chord dictionary chords-db 0.5.1 (MIT); the frets are the outside values.</summary>
    public static TheoryData<string> DictionaryShapes =>
    [
        "x32010", "xx0232", "022100", "320003", "x02220", "133211", "xx0231", "022000", "x02210", "xx0222", "320002", "x02120", "xx0230", "x02200",
        "022200", "020200", "x32310", "xx0212", "020100", "320001", "x02020", "x21202", "xx0211", "022030", "x02010", "xx3210", "x32030", "xx0233",
        "x02230", "x02030", "332010", "200232", "x24432", "x20033",
    ];

    [Theory]
    [MemberData(nameof(DictionaryShapes))]
    public void AStrummedShapeIsFoundStringByString(string text)
    {
        var shape = Shape.Parse(text);

        var places = Place(Strums(shape, Standard));

        Assert.Equal(text, Union(places));
    }

    [Theory]
    [InlineData("x02210")]
    [InlineData("320003")]
    [InlineData("133211")]
    public void ACapoChangesNothing(string text)
    {
        var guitar = Standard with { Capo = Capo.At(3) };

        Assert.Equal(text, Union(Place(Strums(Shape.Parse(text), guitar), guitar)));
    }

    // The one-octave scale in first position as every method begins with it (common practice): C3 on string 5, fret 3 … C4 on string 2, fret 1.
    [Fact]
    public void AScaleStaysInFirstPosition()
    {
        int[] scale = [48, 50, 52, 53, 55, 57, 59, 60];
        (int, int)[] expected = [(1, 3), (2, 0), (2, 2), (2, 3), (3, 0), (3, 2), (4, 0), (4, 1)];

        var places = Place([.. scale.Select((m, i) => Note(m, 0.4 * i, 0.35))]);

        Assert.Equal(expected, places.Select(n => (n.Place!.StringIndex, n.Place.Fret)));
    }

    // A chord with a barre at the seventh fret (E shape, common practice) before and after: the hand stays there.
    [Fact]
    public void ALineBetweenBarreChordsStaysUpTheNeck()
    {
        var barre = Shape.Parse("799877");
        ImmutableArray<HeardNote> notes =
        [
            .. Strum(barre, Standard, 0), .. Strum(barre, Standard, 0.5),
            Note(59, 1, 0.2), Note(62, 1.25, 0.2), Note(64, 1.5, 0.2), .. Strum(barre, Standard, 1.75), .. Strum(barre, Standard, 2.25),
        ];

        var line = Place(notes).Where(n => n.Onset.Value is >= 1 and < 1.7).Select(n => n.Place!.Fret);

        Assert.All(line, fret => Assert.InRange(fret, 6, 10));
    }

    [Fact]
    public void NoStringTakesAnotherInstrumentsNotes()
    {
        var notes = Strums(Shape.Parse("320003"), Standard).Add(Note(31, 0, 1)).Add(Note(96, 0.5, 0.5));

        var places = Place(notes);

        Assert.Null(places.Single(n => n.Midi == 31).Place);
        Assert.Null(places.Single(n => n.Midi == 96).Place);
        Assert.Equal("320003", Union(places));
    }

    [Fact]
    public void AStringThatRingsIsNotTakenAway()
    {
        // The open G rings for two seconds, so the A above it isn't fretted on the same string.
        var places = Place([Note(55, 0, 2), Note(57, 0.3, 0.6), Note(55, 1, 1), Note(57, 1.3, 0.6)]);

        Assert.All(places.Where(n => n.Midi == 55), n => Assert.NotEqual(places[1].Place!.StringIndex, n.Place!.StringIndex));
    }

    [Theory]
    [InlineData("E2 A2 D3 G3 B3 E4", "0")]
    [InlineData("D2 A2 D3 G3 A3 D4", "2")]
    [InlineData("G4 C4 E4 A4", "0")]
    [InlineData("B1 E2 A2 D3 G3 B3 E4", "1")]
    [InlineData("E2 A2 D3 G3 B3 E4", "2 on strings 3 4 5")]
    public void EveryPlaceSoundsItsNoteAndStringsSoundOneNoteAtATime(string tuning, string capo)
    {
        var guitar = new HeardTuning(Tuning.Parse(tuning), capo.Contains("on") ? Capo.At(2, 2, 3, 4) : Capo.At(int.Parse(capo)), null);
        var random = new Random(5);
        var notes = Enumerable.Range(0, 120).Select(i => Note(random.Next(34, 80), 0.1 * (i / 2), 0.1 + random.NextDouble())).ToImmutableArray();

        var places = Place(notes, guitar);

        var board = new Fretboard(guitar.Tuning, guitar.Capo);
        Assert.Equal(notes.Select(n => n.Midi), places.Select(n => n.Midi));
        Assert.Contains(places, n => n.Place is not null);
        foreach (var struck in places.Where(n => n.Place is not null).GroupBy(n => n.Onset))
        {
            Assert.All(struck, n => Assert.Equal(n.Midi, board.MidiAt(n.Place!.StringIndex, n.Place.Fret)));
            Assert.All(struck, n => Assert.InRange(n.Place!.Confidence, 0, 1));
            Assert.Equal(struck.Count(), struck.Select(n => n.Place!.StringIndex).Distinct().Count());
        }
    }

    // HandTests has the arithmetic: where a usual hand stretches over 4 frets and one behind, one of 70 mm has 2 and none behind.
    [Fact]
    public void ASmallerHandIsGivenSmallerStretches()
    {
        var random = new Random(7);
        var notes = Enumerable.Range(0, 200).Select(i => Note(random.Next(40, 74), 0.3 * (i / 3), 0.25)).ToImmutableArray();
        var small = new FrettingEstimator(hand: Hand.Usual with { LongestReach = Length.FromMillimetres(70) });

        Assert.InRange(Widest(small.Estimate(notes, Standard, TestContext.Current.CancellationToken)), 1, 2);
        Assert.InRange(Widest(Place(notes)), 3, 5);
    }

    /// <summary>Frets from the first pressed to the last among notes struck together, at most.</summary>
    private static int Widest(IEnumerable<HeardNote> notes) =>
        notes.Where(n => n.Place is { Fret: > 0 }).GroupBy(n => n.Onset).Max(g => g.Max(n => n.Place!.Fret) - g.Min(n => n.Place!.Fret));

    [Fact]
    public void NoNotesHaveNoPlaces() => Assert.Empty(Place([]));

    private static ImmutableArray<HeardNote> Place(ImmutableArray<HeardNote> notes, HeardTuning? guitar = null) =>
        new FrettingEstimator().Estimate(notes, guitar ?? Standard, TestContext.Current.CancellationToken);

    private static HeardNote Note(int midi, double onset, double length) =>
        new(midi, Seconds.FromSeconds(onset), Seconds.FromSeconds(onset + length), 0.9, 0.6);

    private static ImmutableArray<HeardNote> Strums(Shape shape, HeardTuning guitar) =>
        [.. Enumerable.Range(0, 4).SelectMany(i => Strum(shape, guitar, 0.5 * i))];

    private static IEnumerable<HeardNote> Strum(Shape shape, HeardTuning guitar, double at) =>
        shape.Pitches(guitar.Tuning, guitar.Capo).Select((p, i) => Note(p.Midi, at + 0.006 * i, 0.45));

    private static string Union(ImmutableArray<HeardNote> notes)
    {
        var byString = notes.Where(n => n.Place is not null).ToLookup(n => n.Place!.StringIndex, n => n.Place!.Fret);
        return string.Concat(Enumerable.Range(0, 6).Select(s => byString[s].Any() ? byString[s].Distinct().Single().ToString() : "x"));
    }
}
