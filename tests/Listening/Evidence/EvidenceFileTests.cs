using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Form;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Evidence;

/// <summary>What is read back is what was heard, to the last bit, so that a reading doesn't change by being remembered.</summary>
public sealed class EvidenceFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("harkbook-evidence-").FullName;

    private string File => Path.Combine(folder, "take.evidence");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void EvidenceReadsBackAsItWas()
    {
        var heard = Heard();
        EvidenceFile.Write(heard, File);
        var read = EvidenceFile.Read(File);
        Assert.Equal(heard.ReferencePitch.Candidates, read.ReferencePitch.Candidates);
        Assert.Equal((heard.HeardAbout, heard.Picking), (read.HeardAbout, read.Picking));
        foreach (var of in (Func<NotePosteriorgram, PosteriorMatrix>[])[n => n.Sounding, n => n.Onset, n => n.End])
            Assert.True(of(heard.Notes).Steps.Span.SequenceEqual(of(read.Notes).Steps.Span));
        Assert.True(heard.Notes.Level.Steps.Span.SequenceEqual(read.Notes.Level.Steps.Span));
        Assert.True(heard.Pulse.Bands.Values.Span.SequenceEqual(read.Pulse.Bands.Values.Span));
        Assert.Equal(heard.Pulse.Span, read.Pulse.Span);
        Assert.Equal(heard.Pulse.Curves.Beat, read.Pulse.Curves.Beat);
        Assert.Equal(heard.Pulse.Curves.Tempo, read.Pulse.Curves.Tempo);
        Assert.Equal(Enumerable.Range(0, heard.Lines.Frames).SelectMany(f => heard.Lines[f]), Enumerable.Range(0, read.Lines.Frames)
            .SelectMany(f => read.Lines[f]));
        Assert.Equal(heard.Colour.Harmony, read.Colour.Harmony);
        Assert.Equal(heard.Colour.Levels, read.Colour.Levels);
    }

    [Fact]
    public void SilenceReadsBackAsSilence()
    {
        EvidenceFile.Write(SoundEvidence.None, File);
        Assert.Null(EvidenceFile.Read(File).Pulse.Span);
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.5)]
    [InlineData(0.97)]
    public void ADamagedFileIsNoEvidence(double at)
    {
        EvidenceFile.Write(Heard(), File);
        var bytes = System.IO.File.ReadAllBytes(File);
        System.IO.File.WriteAllBytes(File, bytes[..(int)(at * bytes.Length)]);
        Assert.ThrowsAny<Exception>(() => EvidenceFile.Read(File));
    }

    private static SoundEvidence Heard()
    {
        var random = new Random(7);
        var sound = new Signal(PulseBands.Rate,
            [.. Enumerable.Range(0, 2 * PulseBands.Rate.Hertz).Select(i => (float)(0.3 * Math.Sin(i * 0.06) * (i % 11_025 < 4000 ? 1 : 0.1)))]);
        var matrices = Enumerable.Range(0, 3).Select(_ => Random(random)).ToArray();
        var level = new LevelMatrix(170, 61) { [3, 4] = 0.7f };
        var cells = Enumerable.Range(0, 170)
            .Select(f => Enumerable.Range(0, f % 3).Select(p => new LineCell(p, new(0.4f, 0.2f, 0, 0.1f), 0.9f, -0.3f, -31.5f)));
        return new()
        {
            ReferencePitch = new(new Candidate<Hertz>(Hertz.FromHertz(442.7), 0.8, "why"), new Candidate<Hertz>(Hertz.A440, 0.1)),
            HeardAbout = Hertz.FromHertz(442.7),
            Picking = new() { OnsetThreshold = 0.41, ReleaseThreshold = 0.22 },
            Notes = new(LogSpectrum.Hop, 36, matrices[0], matrices[1], matrices[2], level),
            Pulse = new BeatEstimator().Hear(sound, TestContext.Current.CancellationToken),
            Lines = LineCells.Of(cells),
            Colour = ColourScan.Of(sound, Hertz.A440, TestContext.Current.CancellationToken),
        };
    }

    private static PosteriorMatrix Random(Random random)
    {
        var values = new float[170, 61];
        for (var i = 0; i < values.Length; i++)
            values[i / 61, i % 61] = (float)Math.Pow(random.NextDouble(), 4);
        return PosteriorMatrix.Of(values);
    }
}
