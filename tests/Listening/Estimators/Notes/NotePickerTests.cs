using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Notes;

public class NotePickerTests
{
    [Fact]
    public void ARepeatedNoteIsTwoNotesAndEndsWhereItFallsSilent()
    {
        var (sounding, onset) = (new PosteriorMatrix(100, 2), new PosteriorMatrix(100, 2));
        for (var f = 10; f < 80; f++)
            sounding[f, 1] = 0.9f;
        (onset[10, 1], onset[50, 1]) = (0.9f, 0.7f);

        var notes = new NotePicker().Pick(Evidence(sounding, onset));

        Assert.Equal([0.1, 0.5], notes.Select(n => n.Onset.Value), (a, b) => Math.Abs(a - b) < 1e-6);
        Assert.Equal([0.5, 0.8], notes.Select(n => n.End.Value), (a, b) => Math.Abs(a - b) < 1e-6);
        Assert.All(notes, n => Assert.Equal(41, n.Midi));
        Assert.Equal(0.9, notes[0].Confidence, 0.003);
    }

    [Fact]
    public void AShortGapDoesNotEndANote()
    {
        var (sounding, onset) = (new PosteriorMatrix(60, 1), new PosteriorMatrix(60, 1));
        for (var f = 10; f < 50; f++)
            sounding[f, 0] = f is 20 or 21 ? 0 : 0.9f;
        onset[10, 0] = 0.9f;

        var note = Assert.Single(new NotePicker().Pick(Evidence(sounding, onset)));

        Assert.Equal(0.5, note.End.Value, 1e-6);
    }

    [Fact]
    public void WeakAndTooShortOnsetsAreDropped()
    {
        var (sounding, onset) = (new PosteriorMatrix(60, 2), new PosteriorMatrix(60, 2));
        for (var f = 10; f < 40; f++)
            sounding[f, 0] = 0.9f;
        (onset[10, 0], onset[10, 1]) = (0.2f, 0.9f);

        Assert.Empty(new NotePicker().Pick(Evidence(sounding, onset)));
    }

    private static NotePosteriorgram Evidence(PosteriorMatrix sounding, PosteriorMatrix onset) => new(Seconds.FromMilliseconds(10), 40, sounding, onset);
}
