using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Audio.Synthesis.Voices;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Sounding;
using Harkbook.Units;

namespace Harkbook.Demo;

/// <summary>
/// Makes the recording of a made-up song: its guitar, harmonica and voice played unevenly by a person who breathes, in a
/// room, onto a tape that ran at the wrong speed, so that A4 is what the song file says.
/// </summary>
public static class DemoRecording
{
    private const double TailSeconds = 3;
    private static readonly SampleRate Rate = SampleRate.FromHertz(44_100);

    /// <summary>
    /// Two channels at 44.1 kHz and the truth about them. The song's tempo and reference pitch are the recording's; its
    /// anchors are not looked at, since they are claims about what this makes.
    /// </summary>
    public static DemoTake Render(Song song, DemoPerformance performance, CancellationToken ct = default)
    {
        var (transport, times, take) = Play(song, performance);
        var tape = Tape.Play(Mix(take, performance, song.Tuning.Value, times.At(song.Bars.Count() + 1, Beats.Zero), ct), transport, -68, performance.Seed);
        return new(Mixer.Master(tape, Loudness.FromLufs(performance.Loudness)), new TruthWriter(song, times, transport).Write(take));
    }

    /// <summary>What <see cref="Render"/> plays, without sounding it.</summary>
    public static DemoTruth TruthOf(Song song, DemoPerformance performance)
    {
        var (transport, times, take) = Play(song, performance);
        return new TruthWriter(song, times, transport).Write(take);
    }

    private static (TapeTransport, PerformedTimes, PlayedTake) Play(Song song, DemoPerformance performance)
    {
        var offset = Cents.Between(Hertz.A440, song.ReferencePitch.Value);
        var transport = new TapeTransport(offset, 0.0007, 0.0003, performance.Seed);
        var times = new PerformedTimes(song, performance, 60 / song.Tempo.Value * transport.Ratio);
        return (transport, times, Play(song, performance, times));
    }

    private static PlayedTake Play(Song song, DemoPerformance performance, PerformedTimes times)
    {
        Touch Player(int which) => new(new(performance.Seed * 13 + which), performance.JitterMilliseconds);
        return new(
            new GuitarPart(song, times, Player(1)).Play(),
            new HarpPart(song, times, Player(2)).Play(),
            new DemoVoice(song, times, Player(3)).Sing());
    }

    private static Signal Mix(PlayedTake take, DemoPerformance performance, Tuning tuning, Seconds end, CancellationToken ct)
    {
        var length = end + Seconds.FromSeconds(TailSeconds);
        var instruments = new Instruments(Rate, Hertz.A440, tuning, length, performance.Seed);
        var strings = performance.Strings == "nylon" ? StringSet.Nylon : StringSet.Steel;
        var guitar = Levelled(Added(instruments.Guitar(take.Guitar, strings, ct), FretNoise.Sound(Rate, Shifts(take), length, performance.Seed)), -20);
        var harp = Levelled(instruments.Harp(take.Harp, ct), -25);
        var voice = Levelled(new VoiceLike(Rate, performance.Seed)
            .Sound(take.Voice.Select(n => new VoiceTone(n.At, n.Until, instruments.Frequency(n.Midi), n.Strength, n.Vowel)), length, ct), -22);
        var room = new Room(Rate, Seconds.FromSeconds(performance.RoomSeconds)).Answer(Mixer.Sum(Rate, [new(guitar), new(harp), new(voice)]));
        return Mixer.Sum(Rate, [new(guitar, 0, -0.15), new(harp, 0, 0.35), new(voice, 0, 0.05), new(room, -17)]);
    }

    /// <summary>Moments at which the fretting hand moves along wound strings: a note at another fret than the string's last.</summary>
    private static IEnumerable<Seconds> Shifts(PlayedTake take) =>
        take.Guitar.Where(n => n.StringIndex is 1 or 2).GroupBy(n => n.StringIndex)
            .SelectMany(g => g.Zip(g.Skip(1)).Where(p => p.First.Midi != p.Second.Midi && p.Second.Kind == PluckKind.Plucked)
                .Select(p => p.Second.At - Seconds.FromMilliseconds(70)));

    private static Signal Added(Signal a, Signal b) => Mixer.Sum(Rate, [new(a), new(b)]).ToMono();

    private static Signal Levelled(Signal mono, double lufs) => EvenLevel.At(mono, Loudness.FromLufs(lufs));
}

/// <summary>What the players play, before the tape.</summary>
internal sealed record PlayedTake(List<PlayedNote> Guitar, List<BlownNote> Harp, List<SungNote> Voice);
