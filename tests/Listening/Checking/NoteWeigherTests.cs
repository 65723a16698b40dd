using Harkbook.Listening.Checking;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>Weighing against evidence made by hand: one A4 that starts at 1 s and sounds for 1 s.</summary>
public class NoteWeigherTests
{
    [Theory]
    [InlineData(69, 1.0, true)]
    [InlineData(69, 1.05, true)]
    [InlineData(70, 1.0, false)]
    [InlineData(68, 1.0, false)]
    [InlineData(81, 1.0, false)]
    [InlineData(69, 3.0, false)]
    public void ANoteIsJudgedByItsOwnPitchAndTime(int midi, double onset, bool right)
    {
        var claims = new Annotation { Notes = [new(onset, onset + 0.5, midi)] };
        var finding = Assert.Single(new Checker(Heard()).Check(claims).Findings, f => f.Kind == ClaimKind.Note);
        Assert.Equal(right, finding.LogOdds > 0);
        Assert.InRange(finding.Support, 0, 1);
    }

    /// <summary>The bass guitar's lowest string is E1 (28), a whole octave below C2 (36), the lowest that is listened for: its sound can't be asked.</summary>
    [Fact]
    public void ANoteThatIsNotListenedForIsNotContradicted()
    {
        var claims = new Annotation { Notes = [new(1, 1.5, 69), .. Enumerable.Range(0, 4).Select(i => new ScoredNote(0.5 * i, 0.5 * i + 0.4, 28))] };
        var findings = new Checker(Heard()).Check(claims).Findings.Where(f => f.Kind == ClaimKind.Note).ToList();
        Assert.Equal(5, findings.Count);
        Assert.DoesNotContain(findings, f => f.Verdict == Verdict.Contradicted);
    }

    private static Hearing Heard()
    {
        var (sounding, onset) = (new PosteriorMatrix(400, 61), new PosteriorMatrix(400, 61));
        for (var frame = 100; frame < 200; frame++)
            sounding[frame, 69 - 36] = 0.9f;
        onset[100, 69 - 36] = 0.9f;
        var length = Seconds.FromSeconds(4);
        return new()
        {
            Recording = new("made.wav", SampleRate.FromHertz(22_050), 1, length, new('0', 64), "WAV"),
            ReferencePitch = new(new Candidate<Hertz>(Hertz.A440, 0.9)),
            Tempo = new(new Candidate<double>(120, 0.9)),
            Meter = new(new Candidate<Meter>(Meter.CommonTime, 0.9)),
            Beats = [.. Enumerable.Range(0, 8).Select(i => new HeardBeat(Seconds.FromSeconds(i * 0.5), (i + 2) % 4 + 1, 0.9))],
            Keys = [new(default, length, new(new Candidate<Key>(Key.Parse("A major"), 0.9)))],
            Notes = [new(69, Seconds.FromSeconds(1), Seconds.FromSeconds(2), 0.8, 0.9)],
            Evidence = new() { Notes = new(Seconds.FromSeconds(0.01), 36, sounding, onset) },
            Chords = [new(default, length, new(new Candidate<Chord>(Chord.None, 0.5)))],
            Sections = [new(default, length, "A", 0.5)],
            Tuning = new(new Candidate<HeardTuning>(new(Tuning.Standard, Capo.None, "standard"), 0.5)),
        };
    }
}
