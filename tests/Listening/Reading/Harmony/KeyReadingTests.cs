using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading;
using Harkbook.Listening.Reading.Harmony;
using Harkbook.Listening.Tests.Estimators;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Reading.Harmony;

using Sounding = Harkbook.Listening.Tests.Estimators.Sounding;

public class KeyReadingTests
{
    // Pitch-class counts from C whose best key by the profiles of Temperley (1999) and of Albrecht and Shanahan (2013)
    // agree; correlations were computed outside the program.
    [Theory]
    [InlineData("1 0 1 0 1 1 0 1 0 1 0 1", "C major")]
    [InlineData("2 0 1 0 1 1 0 1 0 1 0 1", "C major")]
    [InlineData("1 0 1 0 1 1 0 0 1 1 0 1", "A minor")]
    [InlineData("1 0 0 0 1 0 0 1 0 0 0 0", "C major")]
    [InlineData("1 0 0 1 0 0 0 1 0 0 0 0", "C minor")]
    [InlineData("3 0 1 0 2 1 0 3 0 1 0 1", "C major")]
    [InlineData("2 0 1 0 3 1 0 0 1 3 0 1", "A minor")]
    public void CountsGiveTheKeyOfBothProfiles(string counts, string key) =>
        Assert.Equal(key, KeysOf(Counts(counts)).Best.ToString());

    // D C G D: the profiles disagree between D and G, and a player would say D mixolydian (common practice).
    [Fact]
    public void AMixolydianRoundStaysOpen()
    {
        var keys = KeysOf(Counts("1 0 3 0 1 0 2 2 0 2 0 1"));

        var names = keys.Candidates.Select(c => c.Value.ToString()).ToList();
        Assert.Contains("D mixolydian", names);
        Assert.Contains("G major", names);
        Assert.InRange(keys.Confidence, 0, 0.8);
    }

    [Fact]
    public void ChromaticCountsGiveNoSureKey() =>
        Assert.InRange(KeysOf(Counts("1 1 1 1 1 1 1 1 1 1 1 1")).Confidence, 0, 0.1);

    [Theory]
    [InlineData(-3)]
    [InlineData(1)]
    [InlineData(4)]
    public void KeysAreSpelledWithFewAccidentals(int semitones)
    {
        var counts = Counts("3 0 1 0 2 1 0 3 0 1 0 1");
        var moved = Enumerable.Range(0, 12).Select(pc => counts[(pc - semitones + 24) % 12]).ToArray();

        var key = KeysOf(moved).Best;

        Assert.Equal(semitones switch { -3 => "A major", 1 => "Db major", _ => "E major" }, key.ToString());
    }

    [Fact]
    public void AChangeOfKeyIsFoundAtItsBar()
    {
        int[][] inC = [[48, 52, 55, 60], [41, 48, 53, 57], [43, 50, 55, 59], [48, 52, 55, 60]];
        int[][] inE = [.. inC.Select(chord => chord.Select(m => m + 4).ToArray())];
        var song = new Sounding(64).PlayEach(2, [.. Repeated(inC, 4), .. Repeated(inE, 4)]);

        var keys = Read(song.Evidence, Sounding.Beats(0.5, 128), song.Length);

        Assert.Equal(["C major", "E major"], keys.Select(k => k.Key.Best.ToString()));
        Assert.Equal(32, keys[0].End.Value, 2.1);
        Assert.Equal(0, keys[0].Start.Value);
        Assert.Equal(64, keys[1].End.Value, 1e-9);
    }

    [Fact]
    public void OneBorrowedChordIsNoChangeOfKey()
    {
        int[][] round = [[45, 52, 57, 61], [43, 50, 55, 59], [50, 57, 62, 66], [45, 52, 57, 61]];
        var song = new Sounding(32).PlayEach(2, [.. Repeated(round, 4)]);

        var key = Assert.Single(Read(song.Evidence, [], song.Length));

        Assert.Equal("A", key.Key.Best.Tonic.ToString());
    }

    [Fact]
    public void NorHasNoise()
    {
        var faint = new float[344, 61];
        for (var i = 0; i < faint.Length; i++)
            faint[i / 61, i % 61] = 0.0005f + 0.001f * (i * 7919 % 13) / 13;
        var evidence = new NotePosteriorgram(Seconds.FromSeconds(0.01161), 36, PosteriorMatrix.Of(faint), PosteriorMatrix.Of(faint));
        Assert.Equal(0, Assert.Single(Read(evidence, [], Seconds.FromSeconds(4))).Key.Confidence);
    }

    [Fact]
    public void SilenceHasNoKeyToBeSureOf()
    {
        var silence = new Sounding(8);

        Assert.Equal(0, Assert.Single(Read(silence.Evidence, [], silence.Length)).Key.Confidence);
    }

    private static ImmutableArray<HeardKey> Read(NotePosteriorgram notes, ImmutableArray<HeardBeat> beats, Seconds length) =>
        HarmonyReader.ByRules().Read(notes, beats, length, Claims.None, TestContext.Current.CancellationToken).Keys;

    /// <summary>Keys for a minute in which the counts are all that sounds, and no chord shows.</summary>
    private static Distribution<Key> KeysOf(double[] counts)
    {
        var (length, even) = (Seconds.FromSeconds(60), Enumerable.Repeat(1.0 / 12, 12).ToArray());
        var weighed = new WeighedChords([new(default, length, SpanPlace.Downbeat)], [new double[ChordVocabulary.States.Length]], [0.5],
            [new(even, counts, even)], null);
        return Assert.Single(HarmonyReader.ByRules().Read(weighed, length, Claims.None).Keys).Key;
    }

    private static IEnumerable<int[]> Repeated(int[][] chords, int times) => Enumerable.Repeat(chords, times).SelectMany(c => c);

    private static double[] Counts(string text) => [.. text.Split(' ').Select(double.Parse)];
}
