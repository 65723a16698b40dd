using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Tests.Estimators.SecondInstrument;

/// <summary>Notes and contours of cells that are written down here.</summary>
public class LineTracerTests
{
    private static readonly KindShares Reed = new(0.9f, 0, 0, 0), Doubtful = new(0.35f, 0, 0, 0);

    [Fact]
    public void ANoteLastsFromItsStartAsLongAsItMaySound()
    {
        var cells = Silence(60);
        Hold(cells, 10, 40, 69, Reed);
        Hold(cells, 40, 45, 69, Doubtful);
        Start(cells, 10, 69);
        var note = Assert.Single(new LineTracer(LineCells.Of(cells)).Trace());
        Assert.Equal((69, 10, 45, true), (note.Midi, note.First, note.End, note.HasOnset));
    }

    [Fact]
    public void ASecondStartOnOnePitchIsASecondNote()
    {
        var cells = Silence(80);
        Hold(cells, 10, 70, 69, Reed);
        Start(cells, 10, 69);
        Start(cells, 41, 69);
        Assert.Equal([(10, 41), (41, 70)], new LineTracer(LineCells.Of(cells)).Trace().Select(s => (s.First, s.End)));
    }

    [Fact]
    public void AScoopBelongsToItsNote()
    {
        // The start is told at the pitch that the scoop reaches.
        var cells = Silence(80);
        Hold(cells, 10, 20, 68, Reed);
        Hold(cells, 20, 60, 69, Reed);
        Start(cells, 10, 69);
        var note = Assert.Single(new LineTracer(LineCells.Of(cells)).Trace());
        Assert.Equal((69, 10, 60), (note.Midi, note.First, note.End));
    }

    [Fact]
    public void WhatIsOnlyDoubtfulIsNoNote()
    {
        var cells = Silence(80);
        Hold(cells, 10, 60, 69, Doubtful);
        Assert.Empty(new LineTracer(LineCells.Of(cells)).Trace());
    }

    [Fact]
    public void TheContourFollowsABendInCents()
    {
        var cells = Silence(140);
        for (var f = 20; f < 120; f++)
        {
            var midi = 69 + 2 * (f - 20) / 100.0;
            cells[f] = [new((int)Math.Round(midi) - LineNetwork.LowestMidi, Reed, f == 20 ? 0.9f : 0, (float)(midi - Math.Round(midi)), -20)];
        }
        var contour = LineNotes.ContourOf(new LineTracer(LineCells.Of(cells)).Trace(), cells.Length);
        for (var f = 20; f < 120; f++)
            Assert.Equal(2 * (f - 20), contour.Cents[f], 100 / 127.0 / 2 + 0.11);
        Assert.False(contour.IsSounding(10));
        Assert.False(contour.IsSounding(130));
    }

    private static LineCell[][] Silence(int frames) => [.. Enumerable.Repeat(Array.Empty<LineCell>(), frames)];

    private static void Hold(LineCell[][] cells, int from, int to, int midi, KindShares kinds)
    {
        for (var f = from; f < to; f++)
            cells[f] = [.. cells[f], new(midi - LineNetwork.LowestMidi, kinds, 0, 0, -20)];
    }

    private static void Start(LineCell[][] cells, int frame, int midi) =>
        cells[frame] = [.. cells[frame].Where(c => c.Pitch != midi - LineNetwork.LowestMidi),
            cells[frame].FirstOrDefault(c => c.Pitch == midi - LineNetwork.LowestMidi) with { Pitch = midi - LineNetwork.LowestMidi, Onset = 0.8f }];
}
