using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Synthesis;

public class PluckedStringTests
{
    private static readonly SampleRate Cd = SampleRate.FromHertz(44_100);

    public static TheoryData<int, int> Range()
    {
        var data = new TheoryData<int, int>();
        foreach (var rate in new[] { 22_050, 44_100, 48_000 })
        {
            for (var midi = 40; midi <= 88; midi += 3)
                data.Add(rate, midi);
        }
        return data;
    }

    [Theory]
    [MemberData(nameof(Range))]
    public void ANoteFromE2ToE6SoundsWithinACentOfEqualTemperament(int rate, int midi)
    {
        // f = 440·2^((m−69)/12), the MIDI convention; computed here, not by the project.
        var wanted = 440 * Math.Pow(2, (midi - 69) / 12.0);
        foreach (var set in new[] { StringSet.Steel, StringSet.Nylon })
        {
            var sound = new PluckedString(SampleRate.FromHertz(rate), set, 1).Sound([Note(0, 2, wanted)], Seconds.FromSeconds(1.2));
            Assert.InRange(Measure.Cents(wanted, Measure.Frequency(sound, 0.1, 1, wanted)), -1, 1);
        }
    }

    [Theory]
    [InlineData(82.4069)]
    [InlineData(196)]
    public void PartialsAreSharpAsAStiffStringMakesThem(double frequency)
    {
        // f(n) = n·f₁·√((1 + B·n²)/(1 + B)): Fletcher, JASA 36, 1964, on stiff strings.
        var b = StringSet.Steel.Inharmonicity;
        var sound = new PluckedString(Cd, StringSet.Steel, 1).Sound([Note(0, 3, frequency)], Seconds.FromSeconds(2));
        foreach (var n in new[] { 4, 8, 14 })
        {
            var wanted = n * frequency * Math.Sqrt((1 + b * n * n) / (1 + b));
            Assert.InRange(Measure.Cents(wanted, Measure.Frequency(sound, 0.05, 0.8, wanted)), -2, 2);
        }
    }

    [Fact]
    public void TheSlowStageDecaysAsLongAsTheStringSetSays()
    {
        var sound = new PluckedString(Cd, StringSet.Steel, 3).Sound([Note(0, 12, 82.4)], Seconds.FromSeconds(10));
        var fall = Measure.Decibels(Measure.Level(sound, 5, 1, 82.4) / Measure.Level(sound, 8, 1, 82.4));
        Assert.InRange(60 / (fall / 3), 8, 10); // 9 s asked
    }

    [Fact]
    public void ANoteFallsAllTheWayAndFastFirst()
    {
        var sound = new PluckedString(Cd, StringSet.Steel, 4).Sound([Note(0, 9, 146.83)], Seconds.FromSeconds(6));
        var levels = Enumerable.Range(0, 28).Select(i => Measure.Decibels(Measure.Rms(sound, 0.1 + 0.2 * i, 0.2))).ToArray();
        Assert.All(levels.Zip(levels.Skip(1)), pair => Assert.True(pair.Second < pair.First));
        Assert.True(levels[0] - levels[5] > 1.3 * (levels[20] - levels[25]), "the first second falls faster than a later one");
    }

    [Fact]
    public void NothingSoundsBeforeTheNoteNorSoonAfterItIsDamped()
    {
        var sound = new PluckedString(Cd, StringSet.Steel, 5).Sound([Note(0.5, 1.5, 110)], Seconds.FromSeconds(3));
        Assert.All(sound.Channels[0].Take(22_050), x => Assert.Equal(0, x));
        Assert.InRange(Measure.Decibels(Measure.Rms(sound, 1.9, 0.3) / Measure.Rms(sound, 0.6, 0.3)), double.NegativeInfinity, -60);
    }

    [Fact]
    public void ANewPluckStopsTheOldNote()
    {
        var sound = new PluckedString(Cd, StringSet.Steel, 6).Sound([Note(0, 5, 110), Note(1, 5, 185)], Seconds.FromSeconds(2));
        var before = Measure.Level(sound, 0.5, 0.4, 110);
        Assert.InRange(Measure.Decibels(Measure.Level(sound, 1.2, 0.4, 110) / before), double.NegativeInfinity, -45);
        Assert.True(Measure.Level(sound, 1.2, 0.4, 185) > 0.3 * before);
    }

    [Theory]
    [InlineData(PluckKind.Hammered, 164.81, 185)]
    [InlineData(PluckKind.Pulled, 185, 164.81)]
    [InlineData(PluckKind.Slid, 164.81, 220)]
    public void ANoteGoesOnAtTheNewPitchWithoutAJump(PluckKind kind, double from, double to)
    {
        var slur = new Pluck(Seconds.FromSeconds(0.7), Seconds.FromSeconds(3), Hertz.FromHertz(to), 0.7, kind);
        var sound = new PluckedString(Cd, StringSet.Steel, 7).Sound([Note(0, 0.7, from), slur], Seconds.FromSeconds(2));
        Assert.InRange(Measure.Cents(to, Measure.Frequency(sound, 0.8, 1, to)), -1, 1);
        var attack = Greatest(sound, 0, 0.03);
        Assert.True(Greatest(sound, 0.6, 0.25) < 0.7 * attack, "a slur is softer than the pluck it follows");
    }

    [Fact]
    public void TheSameSeedSoundsTheSameAndAnotherDiffers()
    {
        float[] Render(int seed) => new PluckedString(Cd, StringSet.Nylon, seed).Sound([Note(0, 1, 220)], Seconds.FromSeconds(0.5)).Channels[0];
        Assert.Equal(Render(8), Render(8));
        Assert.NotEqual(Render(8), Render(9));
    }

    [Fact]
    public void AHarderStrokeIsBrighterAndNylonIsDarkerThanSteel()
    {
        double HighShare(StringSet set, double strength)
        {
            var sound = new PluckedString(Cd, set with { Inharmonicity = 0 }, 10).Sound([Note(0, 2, 110, strength)], Seconds.FromSeconds(1));
            return Enumerable.Range(15, 16).Sum(n => Measure.Level(sound, 0, 0.3, n * 110)) / Measure.Level(sound, 0, 0.3, 110);
        }
        Assert.True(HighShare(StringSet.Steel, 1) > 1.3 * HighShare(StringSet.Steel, 0.2));
        Assert.True(HighShare(StringSet.Steel, 0.6) > 1.5 * HighShare(StringSet.Nylon, 0.6));
    }

    [Fact]
    public void ThePluckingPlaceLeavesOutThePartialWithANodeThere()
    {
        // A string plucked at 1/5 of its length lacks its fifth partial (textbook physics).
        var set = StringSet.Nylon with { PluckPlace = 0.2, Scrape = 0, Inharmonicity = 0 };
        double Fifth(int seed)
        {
            var sound = new PluckedString(Cd, set, seed).Sound([Note(0, 2, 110)], Seconds.FromSeconds(1));
            var (fourth, fifth, sixth) = (Measure.Level(sound, 0, 0.5, 440), Measure.Level(sound, 0, 0.5, 550), Measure.Level(sound, 0, 0.5, 660));
            return fifth / Math.Sqrt(fourth * sixth);
        }
        Assert.True(Enumerable.Range(0, 5).Average(Fifth) < 0.6);
    }

    [Fact]
    public void ARateTooLowForMusicIsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new PluckedString(SampleRate.FromHertz(8000), StringSet.Steel, 1));

    private static Pluck Note(double at, double until, double frequency, double strength = 0.7) =>
        new(Seconds.FromSeconds(at), Seconds.FromSeconds(until), Hertz.FromHertz(frequency), strength);

    private static double Greatest(Signal sound, double from, double length) =>
        sound.Channels[0].Skip((int)(from * 44_100)).Take((int)(length * 44_100)).Max(Math.Abs);
}
