using System.Collections.Immutable;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Demo;
using Harkbook.Listening.Checking;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>A small song in every part, played by our own instruments and heard once. Its right form is what was played.</summary>
public sealed class RenderedSong : IAsyncLifetime
{
    public const string Text = """
        title   Nine Lamps
        pitch   A4 = 441 Hz
        tuning  D2 A2 D3 G3 B3 E4
        capo    none
        meter   4/4
        tempo   96
        key     D major
        harp    D
        shape D   000232
        shape G   550003
        shape A   x02220
        shape Bm  x24432

        section Intro
          chords | D | G | A | D |
          harp   | +4 . -4 . +5 . -5 . | +6 . . . +5 . . . | -4 . . . -5 . . . | +4 . . . . . _ . |
          pick
            E4 | . . . . . . . . | . . . . . . . . | . . . . . . . . | . . . . . . . 2 |
            B3 | . . . 3 . . . . | . . . 0 . . . 3 | . . . 2 . . . . | . . . 3 . . . . |
            G3 | . . 2 . . . 2 . | . . 0 . . . 0 . | . . 2 . . . 2 . | . . 2 . . . 2 . |
            D3 | . 0 . . . 0 . 0 | . 0 . . . 0 . . | . 2 . . . 2 . 2 | . 0 . . . 0 . . |
            A2 | . . . . 0 . . . | . . . . . . . . | 0 . . . 0 . . . | . . . . 0 . . . |
            D2 | 0 . . . . . . . | 5 . . . 5 . . . | . . . . . . . . | 0 . . . . . . . |

        section Verse
          chords | D | Bm | G | A |
          strum throughout | d . d u . u d u |
          sung   | _ lo . ver . tin . _ | _ mar . . sen . _ . | _ dal . rick . fo . _ | _ hem . . . . _ . |
          tune   | _ D4 . E4  . F#4 . _ | _ F#4 . . E4  . _ . | _ G4  . F#4  . E4 . _ | _ E4  . . . . _ . |
        """;

    private static readonly DemoPerformance Playing = new()
    {
        Seed = 5,
    };

    /// <summary>What is heard of it, with nothing claimed.</summary>
    public Hearing Heard { get; private set; } = null!;

    private Checker? checker;
    private DemoTruth? truth;

    public async ValueTask InitializeAsync()
    {
        var take = DemoRecording.Render(Parsed(Text), Playing);
        truth = take.Truth;
        var path = Path.Combine(Path.GetTempPath(), $"harkbook-{Guid.NewGuid():N}.wav");
        try
        {
            WaveFile.Write(path, take.Sound);
            Heard = await new Listener().ListenAsync(await RecordingReader.InspectAsync(path, default), null, default);
            checker = new(Heard);
        }
        finally
        {
            File.Delete(path);
        }
    }

    public ValueTask DisposeAsync() => default;

    /// <summary>The check of the song with something in it replaced, each bar tied to when it was played.</summary>
    /// <param name="before">What stands there once.</param>
    public CheckResult Check(string before = "", string after = "")
    {
        Assert.True(before.Length == 0 || Text.Split(before).Length == 2, $"'{before}' should stand in the song once.");
        var song = Parsed(before.Length == 0 ? Text : Text.Replace(before, after, StringComparison.Ordinal));
        return checker!.Check(Tied(song, Starts));
    }

    /// <summary>The check of the right song with the start of one bar moved by some beats.</summary>
    public CheckResult CheckWithBarMoved(int bar, int beats)
    {
        var starts = Starts;
        starts[bar - 1] = truth!.Beats[4 * (bar - 1) + beats].Time;
        return checker!.Check(Tied(Parsed(Text), starts));
    }

    public CheckResult CheckInTuning(string tuning)
    {
        var song = Parsed(Text);
        return checker!.Check(Tied(song with { Tuning = song.Tuning with { Value = Tuning.Parse(tuning) } }, Starts));
    }

    /// <summary>When each bar starts.</summary>
    public ImmutableArray<Units.Seconds> BarStarts => [.. Starts];

    /// <summary>When each beat falls.</summary>
    public ImmutableArray<Units.Seconds> BeatTimes => [.. truth!.Beats.Select(b => b.Time)];

    /// <summary>Where and when each note of the right song is picked.</summary>
    public IEnumerable<(Units.Seconds Time, int StringIndex, int Fret)> Played
    {
        get
        {
            var song = Tied(Parsed(Text), Starts);
            var clock = new SongClock(song);
            return song.Bars.SelectMany(b => b.Picked.Select(p => (clock.TimeOf(b.Number, p.Start), p.Value.StringIndex, p.Value.Fret)));
        }
    }

    private Units.Seconds[] Starts => [.. truth!.Beats.Where(b => b.PositionInBar == 1).Select(b => b.Time)];

    private static Song Parsed(string text)
    {
        var document = SongText.Parse(text, "lamps.hark");
        Assert.True(document.Song is not null, string.Join('\n', document.Diagnostics));
        return document.Song;
    }

    private Song Tied(Song song, Units.Seconds[] starts) => song with
    {
        Sections = [.. song.Sections.Select(s => s with { Anchors = [.. s.Bars.Select((b, i) => new Anchor(i + 1, starts[b.Number - 1])), .. End(s)] })],
    };

    /// <summary>The last bar slows down, so its end is tied too.</summary>
    private IEnumerable<Anchor> End(Section section) => section.Bars[^1].Number * 4 < truth!.Beats.Length ? []
        : [new(section.Bars.Length, truth.Beats[^1].Time) { Beat = Units.Beats.Whole(3) }];
}
