using Harkbook.Audio.Signals;
using Harkbook.Demo;
using Harkbook.Sounding.Tests;

namespace Harkbook.App.Tests.Demo;

public class DemoRecordingTests
{
    private const string Text = """
        title   Sample
        pitch   A4 = 434.193 Hz
        tuning  D2 A2 D3 F#3 A3 D4
        capo    none
        meter   4/4
        tempo   100
        key     D major
        shape   D 000000
        section A
        chords  | D | D |
        strum   | d . . . | _ |
        pick from 2
          A3    | 0 |
        """;

    private static readonly DemoPerformance Plain = new() { Seed = 3, LeadInSeconds = 0.5, RoomSeconds = 0.3 };

    [Fact]
    public void TheRecordingHasTheSongsPitchAndTheTruthsTimes()
    {
        var take = DemoRecording.Render(Sample.Song(Text), Plain, TestContext.Current.CancellationToken);
        var picked = take.Truth.Notes.Last();
        // 434.193 Hz is 23 cents under 440 (1200·log2 of their ratio); A3 is half of A4.
        Assert.InRange(Sample.CentsAbove(take.Sound, 0, picked.Onset.Value + 0.1, 1.2, 220), -25, -21);
        Assert.Equal(take.Truth.Notes[0].Onset.Value, Sample.FirstOver(take.Sound, 0, 0, 0.03), 0.03);
        Assert.Equal(-16, LoudnessMeter.Integrated(take.Sound)!.Value.Lufs, 0.7);
        Assert.True(LoudnessMeter.TruePeak(take.Sound) <= -0.99);
    }

    [Fact]
    public void TheSameSeedPlaysTheSameAndAnotherSeedNot()
    {
        var song = Sample.Song(Text);
        Assert.Equal(DemoRecording.TruthOf(song, Plain).Notes, DemoRecording.TruthOf(song, Plain).Notes);
        Assert.NotEqual(DemoRecording.TruthOf(song, Plain).Notes, DemoRecording.TruthOf(song, Plain with { Seed = 4 }).Notes);
    }

    [Fact]
    public void AStrokeIsSpreadAndNoneOfItsNotesIsFarFromTheBeat()
    {
        var truth = DemoRecording.TruthOf(Sample.Song(Text), Plain);
        var stroke = truth.Notes.Take(6).ToArray();
        Assert.InRange((stroke[^1].Onset - stroke[0].Onset).Value, 0.006, 0.04);
        Assert.InRange((stroke[0].Onset - truth.Beats[0].Time).Value, -0.016, 0.016);
        Assert.Equal([38, 45, 50, 54, 57, 62], stroke.Select(n => n.Midi)); // D2 A2 D3 F#3 A3 D4, open D
        Assert.Equal("D:maj", truth.Chords.Single().Label);
    }

    [Fact]
    public void TheVoiceSingsTheTuneAndNotWithoutOne()
    {
        IEnumerable<int> Sung(string lines) => DemoRecording.TruthOf(Sample.Song(Text + lines), Plain).Notes.Where(n => n.Part == DemoPart.Voice)
            .Select(n => n.Midi);
        Assert.Equal([62, 64, 57], Sung("\n  sung | x . x . | . |\n  tune | D4 E4 A3 . | . |"));
        Assert.Empty(Sung("\n  sung | x . x . | . |"));
        Assert.Empty(Sung("\n  tune fiddle\n  tune | D4 E4 A3 . | . |"));
    }
}
