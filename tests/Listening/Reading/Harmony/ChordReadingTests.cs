using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading;
using Harkbook.Listening.Reading.Harmony;
using Harkbook.Listening.Tests.Estimators;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Reading.Harmony;

using Sounding = Harkbook.Listening.Tests.Estimators.Sounding;

// Shapes are the common open and barre shapes of standard tuning by MIDI number (common practice).
public class ChordReadingTests
{
    private static readonly int[] C = [48, 52, 55, 60, 64];
    private static readonly int[] G = [43, 47, 50, 55, 59, 67];
    private static readonly int[] Am = [45, 52, 57, 60, 64];
    private static readonly int[] F = [41, 48, 53, 57, 60, 65];
    private static readonly int[] E7 = [40, 47, 50, 56, 59, 64];

    [Fact]
    public void NamesARoundOfOpenChords()
    {
        var song = new Sounding(16).PlayEach(2, C, G, Am, F, C, G, Am, E7);

        var chords = Estimate(song, Sounding.Beats(0.5, 32), "C major");

        Assert.Equal(["C", "G", "Am", "F", "C", "G", "Am", "E7"], Names(chords));
        Assert.Equal([0, 2, 4, 6, 8, 10, 12, 14], chords.Select(c => c.Start.Value), (a, b) => Math.Abs(a - b) < 0.3);
        Assert.All(chords, c => Assert.InRange(c.Chord.Confidence, 0.5, 1));
    }

    [Theory]
    [InlineData("C/E", 40, 48, 55, 60, 64)]
    [InlineData("G/B", 47, 50, 55, 59, 67)]
    [InlineData("D/F#", 42, 45, 50, 57, 62, 66)]
    [InlineData("Cmaj7", 48, 52, 55, 59, 64)]
    [InlineData("Am7", 45, 52, 55, 60, 64)]
    [InlineData("Dsus4", 50, 57, 62, 67)]
    [InlineData("E5", 40, 47, 52)]
    [InlineData("Bdim", 47, 53, 59, 62)]
    public void NamesKindsAndBasses(string name, params int[] notes)
    {
        var song = new Sounding(8).PlayEach(4, notes, notes);

        Assert.Equal(name, Assert.Single(Names(Estimate(song, Sounding.Beats(0.5, 16), "G major"))));
    }

    [Theory]
    [InlineData("Eb major", "Ab")]
    [InlineData("E major", "G#")]
    public void SpellsInTheKey(string key, string name)
    {
        var song = new Sounding(4).Play(0, 4, 44, 51, 56, 60, 63);

        Assert.Equal(name, Names(Estimate(song, Sounding.Beats(0.5, 8), key))[0]);
    }

    // bVI and bVII of E are C and D: common practice, the names players use.
    [Theory]
    [InlineData("C", 48, 52, 55, 60, 64)]
    [InlineData("D", 50, 57, 62, 66)]
    public void BorrowedChordsOfAKeyKeepTheirFlatNames(string name, params int[] notes)
    {
        var song = new Sounding(4).Play(0, 4, notes);

        Assert.Equal(name, Names(Estimate(song, Sounding.Beats(0.5, 8), "E major"))[0]);
    }

    [Fact]
    public void SilenceIsNoChord()
    {
        var song = new Sounding(8).Play(0, 4, Am);

        Assert.Equal(["Am", "N.C."], Names(Estimate(song, Sounding.Beats(0.5, 16), "A minor")));
    }

    [Fact]
    public void WithoutBeatsItStillHearsTheChanges()
    {
        var song = new Sounding(8).PlayEach(2, C, F, G, C);

        var chords = HarmonyReader.ByRules().Read(song.Evidence, [], song.Length, Claims.None, TestContext.Current.CancellationToken).Chords;

        Assert.Equal(["C", "F", "G", "C"], Names(chords));
        Assert.Equal(8, chords[^1].End.Value, 0.02);
    }

    [Fact]
    public void SpansHaveNoGaps()
    {
        var song = new Sounding(8).PlayEach(1, C, F, G, C, Am, F, G, C);

        var chords = Estimate(song, Sounding.Beats(0.5, 16), "C major");

        Assert.Equal(0, chords[0].Start.Value);
        Assert.All(chords.Zip(chords.Skip(1)), pair => Assert.Equal(pair.First.End, pair.Second.Start));
    }

    [Fact]
    public void AmbiguousNotesKeepARunnerUp()
    {
        // A C E G with A in the bass is Am7; with C in the bass it is also C6 (common practice).
        var song = new Sounding(4).Play(0, 4, 48, 52, 57, 67);

        var names = Estimate(song, Sounding.Beats(0.5, 8), "C major")[0].Chord.Candidates.Select(c => c.Value.ToString()).ToList();

        Assert.Contains("C6", names);
        Assert.Contains("Am7/C", names);
    }

    [Fact]
    public void HearsChordsInSound() =>
        Assert.Equal(["C", "G", "Am", "F"], Names(HarmonyReader.ByRules().Read(
            Heard((sound, ct) => new TemplateNoteEstimator().Estimate(sound, Hertz.A440, null, ct), C, G, Am, F), Sounding.Beats(0.5, 16),
                Seconds.FromSeconds(8), Claims.None, TestContext.Current.CancellationToken).Chords));

    [Fact]
    public void TheNetworksHearChordsInSound() =>
        Assert.Equal(["C", "G", "Am", "F"], Trained(C, G, Am, F));

    // Shapes of standard tuning (common practice).
    [Fact]
    public void TheNetworksHearSeventhsAndBasses() =>
        Assert.Equal(["E7", "Am7", "D/F#", "Dsus4"], Trained(E7, [45, 52, 55, 60, 64], [42, 50, 57, 62, 66], [50, 57, 62, 67]));

    [Fact]
    public void BeatsThatFallTogetherCountAsOne()
    {
        var song = new Sounding(4).Play(0, 4, 48, 52, 55);
        var beats = Sounding.Beats(0.5, 8);
        var chords = HarmonyReader.Trained().Read(song.Evidence, beats.Insert(4, beats[4]), song.Length, Claims.None,
            TestContext.Current.CancellationToken).Chords;
        Assert.All(chords, c => Assert.True(double.IsFinite(c.Chord.Confidence) && c.End > c.Start));
    }

    private static List<string> Trained(params int[][] round) =>
        Names(HarmonyReader.Trained().Read(
            Heard((sound, ct) => NoteScan.NotesOf(sound, Hertz.A440, ct), round), Sounding.Beats(0.5, 16), Seconds.FromSeconds(2 * round.Length), Claims.None,
                TestContext.Current.CancellationToken).Chords);

    private static NotePosteriorgram Heard(Func<ISound, CancellationToken, NoteEstimate> estimate, params int[][] round)
    {
        var sound = new Plucked(22_050, 2 * round.Length);
        for (var i = 0; i < 2 * round.Length; i++)
            sound.Chord(i, 1, round[i / 2]);
        return estimate(sound.Noise(0.001).Signal, TestContext.Current.CancellationToken).Evidence;
    }

    private static ImmutableArray<HeardChord> Estimate(Sounding song, ImmutableArray<HeardBeat> beats, string key) =>
        HarmonyReader.ByRules().Read(song.Evidence, beats, song.Length, new() { Keys = [new(default, song.Length, Key.Parse(key))] },
            TestContext.Current.CancellationToken).Chords;

    private static List<string> Names(ImmutableArray<HeardChord> chords) => [.. chords.Select(c => c.Chord.Best.ToString())];
}
