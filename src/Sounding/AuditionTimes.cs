using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>Times in an audition: the song's clock, started at the first bar's count-in and run at the speed.</summary>
internal sealed class AuditionTimes : IBarTimes
{
    private readonly SongClock clock;
    private readonly double speed;
    private readonly Seconds origin;

    public AuditionTimes(Song song, AuditionOptions options)
    {
        clock = new(song);
        speed = options.Speed;
        (First, Last) = (options.FirstBar ?? 1, options.LastBar ?? song.Bars.Count());
        var bar = song.Bars.ElementAt(First - 1);
        BeatsPerBar = bar.Meter.BeatsPerBar;
        BarLength = clock.TimeOf(First + 1) - clock.TimeOf(First);
        var start = clock.TimeOf(First) - BarLength * options.CountInBars;
        origin = options is { Against: not null, FirstBar: null } && start.Value > 0 ? default : start;
    }

    public int First { get; }

    public int Last { get; }

    /// <summary>Felt beats in the first bar.</summary>
    public int BeatsPerBar { get; }

    /// <summary>How long the first bar is in the recording.</summary>
    public Seconds BarLength { get; }

    public Seconds End => At(Last + 1, Beats.Zero);

    public Seconds At(int bar, Beats inBar) => FromRecording(clock.TimeOf(bar, inBar));

    public Seconds FromRecording(Seconds time) => (time - origin) * (1 / speed);

    /// <summary>A click of the count-in: beats before the first bar, 1 the nearest.</summary>
    public Seconds BeforeStart(int beats) => FromRecording(clock.TimeOf(First) - BarLength * ((double)beats / BeatsPerBar));
}
