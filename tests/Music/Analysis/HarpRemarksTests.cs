using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.SecondInstruments;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis;

/// <summary>What is said of planted harmonica parts; positions and chords are common practice, notes worked by hand from the layout.</summary>
public class HarpRemarksTests
{
    // A harmonica in A for a song in E is cross harp; it draws E on its low holes and blows A, and B major it lacks (common practice).
    [Fact]
    public void CrossHarpIsNamedWithWhatItHas()
    {
        var remarks = Of("key E major\nharp A\nsection A\nchords | E | A | B | E |\nharp | -2 . . . | +4 . . . | -4 . . . | -2 . _ . |\n");
        Assert.Equal("The harmonica is in A and the song in E: second position, which players call cross harp.",
            One(remarks, RemarkKind.HarpPosition).Sentence);
        Assert.Equal(Frequency.Usual, One(remarks, RemarkKind.HarpPosition).Usualness!.Frequency);
        Assert.Contains("E drawn and A blown on one breath; B it has not", One(remarks, RemarkKind.HarpChords).Sentence);
        Assert.DoesNotContain(remarks, r => r.Kind is RemarkKind.HarpBends or RemarkKind.BreathTooLong);
        Assert.All(remarks, r => Assert.Equal(RemarkTopic.SecondInstrument, r.Topic));
    }

    // Draw 3 on a harmonica in A is G#; a semitone lower G, the flat third of E.
    [Fact]
    public void BentNotesAreNamedInTheSongsKey()
    {
        var bends = One(Of("key E major\nharp A\nsection A\nharp | -3' . -3 . | -2 . -3' . |\n"), RemarkKind.HarpBends);
        Assert.Equal("Two of its 4 notes need bending: draw 3 bent a semitone for G, the flat third of the key.", bends.Sentence);
        Assert.Equal([(1, 0.0), (2, 2.0)], bends.Places.Select(p => (p.Bar, p.Start.Value)));
    }

    // The scale of C from blow 4 is plain on a harmonica in C alone; D flat, E flat, F and A flat are the blown 4, drawn 4, blown 5 and 6 of one
    // in D flat (layout, by hand).
    [Theory]
    [InlineData("C", "+4 -4 +5 -5 | +6 -6 -7 +7", "In no other key does the part ask for less: here no bend at all")]
    [InlineData("C", "-4' +4o -5 -6'", "A harmonica in D flat would ask for less: no bend at all, against two bends and one over-bend here.")]
    public void TheChoiceIsWeighed(string harp, string notes, string words) =>
        Assert.Contains(words, One(Of($"key C major\nharp {harp}\nsection A\nharp | {notes} |\n"), RemarkKind.HarpChoice).Sentence);

    // At 60 beats a minute a beat is a second.
    [Fact]
    public void ALongBreathIsWarnedOf()
    {
        var remarks = Of("tempo 60\nharp C\nsection A\nharp | -4 . -5 . | -4 . -5 . | -4 . . . |\n");
        Assert.Equal("Bars 1 to 3 draw for 12 seconds with no rest, which may be long for one breath.", One(remarks, RemarkKind.BreathTooLong).Sentence);
        Assert.Contains(One(remarks, RemarkKind.BreathTooLong).Facts, f => f.Method.StartsWith("assumed", StringComparison.Ordinal));
        Assert.Contains("draws 3 bars", One(remarks, RemarkKind.BreathPlan).Sentence);
    }

    [Theory]
    [InlineData("key C major\nsection A\nchords | C |\n")]
    [InlineData("key C major\nharp C\nsection A\nchords | C |\n")]
    public void WithoutAPartNothingIsSaid(string text) => Assert.Empty(Of(text));

    [Fact]
    public void AChromaticHarmonicaHasNoPosition() =>
        Assert.DoesNotContain(Of("key E major\nharp C chromatic\nsection A\nharp | +2 -1< +3< -4 |\n"), r => r.Kind == RemarkKind.HarpPosition);

    private static Remark One(IEnumerable<Remark> remarks, RemarkKind kind) => Assert.Single(remarks, r => r.Kind == kind);

    private static Remark[] Of(string text) => [.. HarpRemarks.Of(SongText.Parse("title Far\n" + text, "a.hark").Song!)];
}
