using System.Globalization;
using System.Text.RegularExpressions;
using Harkbook.App.Tests.Demo;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Demo;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Listening.Tests.Interchange;

public class JamsWriterTests
{
    private static readonly string GuitarSet = Path.Combine(AppContext.BaseDirectory, "Fixtures", "guitarset", "00_BN1-129-Eb_comp.first-8-seconds.jams");

    [Theory]
    [InlineData("copper-on-the-tide")]
    [InlineData("two-miles-of-snow")]
    public async Task WhatIsHeardInTheSongbookIsValid(string name)
    {
        var (_, song, performance) = DemoSongs.All().Single(s => s.Name == name);
        var path = Path.Combine(Directory.CreateTempSubdirectory("harkbook-jams-").FullName, name + ".wav");
        try
        {
            WaveFile.Write(path, Start(DemoRecording.Render(song, performance, TestContext.Current.CancellationToken).Sound));
            var hearing = await new Listener().ListenAsync(await RecordingReader.InspectAsync(path, TestContext.Current.CancellationToken), null,
                TestContext.Current.CancellationToken);

            var written = JamsWriter.Write(hearing);

            Assert.Empty(JamsSchema.Mistakes(written));
            Assert.Empty(MirEvalRules.Breaches(written));
            Assert.All(Regex.Matches(written, """_?confidence": ([0-9.e-]+)"""),
                c => Assert.InRange(double.Parse(c.Groups[1].Value, CultureInfo.InvariantCulture), 0, 0.99));
            var read = Read(written);
            Assert.Equal(hearing.Beats.Length, read.Beats.Length);
            Assert.Equal(hearing.Notes.Length, read.Notes.Length);
            Assert.Equal(hearing.Chords.Select(c => HarteLabel.Encode(c.Chord.Best).ToString()),
                read.Chords.Select(c => HarteLabel.Encode(c.Label).ToString()));
            Assert.Equal(hearing.Keys.Select(k => k.Key.Best.ToString()), read.Keys.Select(k => k.Label));
            Assert.Equal(hearing.Tuning.Best.Tuning, read.Tuning);
        }
        finally
        {
            Directory.Delete(Path.GetDirectoryName(path)!, recursive: true);
        }
    }

    // GuitarSet (ISMIR 2018, CC BY 4.0); see Fixtures/guitarset/README.md.
    [Fact]
    public void APublishedAnnotationIsTheSameWhenWrittenAgain()
    {
        var read = JamsReader.Read(GuitarSet);
        Assert.Equal((46, 18, 2), (read.Notes.Length, read.Beats.Length, read.Chords.Length));

        var written = JamsWriter.Write(read, "00_BN1-129-Eb_comp");

        Assert.Empty(JamsSchema.Mistakes(written));
        var again = Read(written);
        Assert.All(read.Notes.Zip(again.Notes), pair => AssertAlike(pair.First, pair.Second));
        Assert.All(read.Beats.Zip(again.Beats), pair => Assert.Equal(pair.First.Time, pair.Second.Time, 1e-5));
        Assert.Equal(read.Beats.Select(b => b.PositionInBar), again.Beats.Select(b => b.PositionInBar));
        Assert.Equal((read.Notes.Length, read.Beats.Length), (again.Notes.Length, again.Beats.Length));
        Assert.Equal(read.Chords.Select(c => c.Label), again.Chords.Select(c => c.Label));
        Assert.Equal((read.Tempo, read.Duration), (again.Tempo, again.Duration));
    }

    // Every kind in docs/chord-symbols.md; the namespace chord_harte knows few of them by name.
    [Theory]
    [InlineData("C C5 Cm Cdim Caug Csus2 Csus4 Cadd9 Cmadd9 C6 Cm6 C6/9 C7 Cmaj7 Cm7 Cm(maj7) Cdim7 Cm7b5 C7sus4 C9 Cmaj9 Cm9 C9sus4")]
    [InlineData("C11 Cm11 C13 Cm13 C7#5 C7b5 C7b9 C7#9 Cmaj7#11 C13b9 C7alt C/E C/Bb Cm/G C5/D Gbsus2/Ab N.C.")]
    public void EveryChordFitsTheNamespaceAndReadsBack(string symbols)
    {
        var chords = symbols.Split(' ').Select(ChordSymbol.Read).ToArray();
        var written = JamsWriter.Write(new() { Duration = chords.Length,
            Chords = [.. chords.Select((c, i) => new AnnotatedSpan(i, i + 1, HarteLabel.Write(c)))] }, "chords");

        Assert.Empty(JamsSchema.Mistakes(written));
        Assert.Equal(chords.Select(Sound), Read(written).Chords.Select(c => Sound(HarteLabel.Read(c.Label))));

        static string Sound(Chord chord) => chord.IsNone ? "none" : $"{chord.Bass.PitchClass}: {string.Join(' ', chord.PitchClasses)}";
    }

    [Fact]
    public void EveryKeyFitsTheNamespaceAndReadsBack()
    {
        var keys = Mode.All.SelectMany(mode => Enumerable.Range(0, 12).Select(p => new Key(PitchName.FromPitchClass(p), mode).ToString())).ToArray();
        var written = JamsWriter.Write(new() { Duration = keys.Length, Keys = [.. keys.Select((k, i) => new AnnotatedSpan(i, i + 1, k))] }, "keys");

        Assert.Empty(JamsSchema.Mistakes(written));
        Assert.Equal(keys, Read(written).Keys.Select(k => k.Label));
    }

    [Fact]
    public void WhatNobodyNamedIsLeftOutAndWhatIsKnownIsKept()
    {
        var annotation = new Annotation
        {
            Duration = 3, Beats = [new(0.5, null)], Chords = [new(0, 1, "X"), new(1, 2, "D:maj")], Tuning = Tuning.Standard, Capo = 2, ReferenceHertz = 434.2,
        };

        var written = JamsWriter.Write(annotation, "");

        Assert.Empty(JamsSchema.Mistakes(written));
        var read = Read(written);
        Assert.Equal([new AnnotatedSpan(1, 2, "D:maj")], read.Chords);
        Assert.Null(Assert.Single(read.Beats).PositionInBar);
        Assert.Equal((Tuning.Standard, 2, 434.2), (read.Tuning, read.Capo, read.ReferenceHertz));
    }

    /// <summary>The first 25 seconds, which are enough to hear everything that a file holds.</summary>
    private static Signal Start(Signal sound) => new(sound.Rate, [.. sound.Channels.Select(c => c[..(25 * sound.Rate.Hertz)])]);

    private static void AssertAlike(ScoredNote expected, ScoredNote actual)
    {
        Assert.Equal(expected.StringIndex, actual.StringIndex);
        Assert.Equal(expected.Onset, actual.Onset, 1e-5);
        Assert.Equal(expected.End, actual.End, 1e-5);
        Assert.Equal(expected.Midi, actual.Midi, 1e-5);
    }

    private static Annotation Read(string jams)
    {
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllText(path, jams);
            return JamsReader.Read(path);
        }
        finally
        {
            File.Delete(path);
        }
    }
}
