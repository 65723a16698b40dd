using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Notes;

/// <summary>What every note estimator must hear; each says how well.</summary>
public abstract class NoteEstimatorTests(Func<ISound, Hertz, CancellationToken, NoteEstimate> estimate, double leastOfPattern, double leastOfStrum)
{
    [Theory]
    [InlineData(44_100, 440)]
    [InlineData(22_050, 432)]
    public void HearsAPickedPattern(int rate, double a4)
    {
        int[] pattern = [45, 57, 60, 64, 43, 55, 59, 67, 41, 57, 60, 65, 40, 56, 59, 64];
        var sound = new Plucked(rate, 5, a4);
        var reference = new List<ScoredNote>();
        for (var i = 0; i < pattern.Length; i++)
        {
            var onset = 0.2 + 0.28 * i;
            sound.Note(pattern[i], onset, 0.55);
            reference.Add(new(onset, onset + 0.55, pattern[i]));
        }

        Assert.InRange(OnsetF(sound.Noise(0.001).Signal, a4, reference), leastOfPattern, 1);
    }

    [Fact]
    public void HearsEveryStringOfAStrum()
    {
        int[][] shapes = [[48, 52, 55, 60, 64], [43, 47, 50, 55, 59, 67], [45, 52, 57, 60, 64], [41, 48, 53, 57, 60]];
        var sound = new Plucked(22_050, 5);
        var reference = new List<ScoredNote>();
        for (var i = 0; i < shapes.Length; i++)
        {
            sound.Chord(0.2 + 1.1 * i, 1, shapes[i]);
            reference.AddRange(shapes[i].Select((m, s) => new ScoredNote(0.2 + 1.1 * i + 0.008 * s, 1.2 + 1.1 * i, m)));
        }

        Assert.InRange(OnsetF(sound.Noise(0.001).Signal, 440, reference), leastOfStrum, 1);
    }

    [Fact]
    public void SilenceHoldsNoNotes()
    {
        var silence = new Signal(LogSpectrum.Rate, new float[22_050]);

        var heard = estimate(silence, Hertz.A440, TestContext.Current.CancellationToken);

        Assert.Empty(heard.Notes);
        Assert.Equal(36, heard.Evidence.LowestMidi);
        Assert.Equal(61, heard.Evidence.Pitches);
    }

    [Fact]
    public void EvidenceTellsWhatSounds()
    {
        var heard = estimate(new Plucked(22_050, 1).Note(57, 0.3, 0.6).Signal, Hertz.A440, TestContext.Current.CancellationToken);

        var during = heard.Evidence.FrameAt(Seconds.FromSeconds(0.5));
        Assert.InRange(heard.Evidence.Sounding[during, 57 - 36], 0.6, 1);
        Assert.InRange(heard.Evidence.Sounding[during, 45 - 36], 0, 0.5);
        Assert.InRange(heard.Evidence.Sounding[heard.Evidence.FrameAt(Seconds.FromSeconds(0.1)), 57 - 36], 0, 0.4);
    }

    private double OnsetF(Signal sound, double a4, List<ScoredNote> reference)
    {
        var notes = estimate(sound, Hertz.FromHertz(a4), TestContext.Current.CancellationToken).Notes;
        return NoteScores.OnsetAndPitch(reference, [.. notes.Select(n => new ScoredNote(n.Onset.Value, n.End.Value, n.Midi))]).F;
    }
}

public sealed class TemplateNoteEstimatorTests() : NoteEstimatorTests((sound, a4, ct) => new TemplateNoteEstimator().Estimate(sound, a4, null, ct),
    leastOfPattern: 0.75, leastOfStrum: 0.7);

public sealed class NoteScanTests() : NoteEstimatorTests(NoteScan.NotesOf, leastOfPattern: 0.9, leastOfStrum: 0.85);
