using System.Collections.Immutable;
using Harkbook.Music.Theory;
using NAudio.Midi;

namespace Harkbook.Listening.Interchange;

/// <summary>Ties a MIDI file's ticks to seconds and bars.</summary>
internal sealed class MidiClock
{
    private const double DefaultMicroseconds = 500_000;

    private readonly int ticksPerQuarter;
    private readonly ImmutableArray<(long Tick, double Seconds, double SecondsPerTick)> changes;

    public MidiClock(int ticksPerQuarter, ImmutableArray<MidiEvent> events)
    {
        this.ticksPerQuarter = ticksPerQuarter;
        var list = ImmutableArray.CreateBuilder<(long, double, double)>();
        var (tick, seconds, rate) = (0L, 0.0, DefaultMicroseconds / 1e6 / ticksPerQuarter);
        list.Add((tick, seconds, rate));
        foreach (var tempo in events.OfType<TempoEvent>())
        {
            seconds += (tempo.AbsoluteTime - tick) * rate;
            (tick, rate) = (tempo.AbsoluteTime, tempo.MicrosecondsPerQuarterNote / 1e6 / ticksPerQuarter);
            list.Add((tick, seconds, rate));
        }
        changes = list.ToImmutable();
    }

    public double SecondsAt(long tick)
    {
        var last = changes.Length - 1;
        while (changes[last].Tick > tick)
            last--;
        return changes[last].Seconds + (tick - changes[last].Tick) * changes[last].SecondsPerTick;
    }

    /// <summary>Felt beats from the first bar to the end of the music, in seconds.</summary>
    public ImmutableArray<AnnotatedBeat> Beats(ImmutableArray<MidiEvent> events, double end)
    {
        var beats = ImmutableArray.CreateBuilder<AnnotatedBeat>();
        var meters = Meters(events);
        for (var i = 0; i < meters.Length; i++)
        {
            var (start, meter) = meters[i];
            var step = (long)Math.Round(ticksPerQuarter * meter.QuartersPerBeat);
            var stop = i + 1 < meters.Length ? meters[i + 1].Tick : long.MaxValue;
            for (long tick = start, n = 0; tick < stop && SecondsAt(tick) < end; tick += step, n++)
                beats.Add(new(SecondsAt(tick), (int)(n % meter.BeatsPerBar) + 1));
        }
        return beats.ToImmutable();
    }

    /// <summary>The felt tempo that holds for most of the time, in beats a minute.</summary>
    public double MainTempo(ImmutableArray<MidiEvent> events, double end)
    {
        var quarters = Meters(events)[0].Meter.QuartersPerBeat;
        return changes
            .Select((c, i) => (c.SecondsPerTick, Time: (i + 1 < changes.Length ? changes[i + 1].Seconds : end) - c.Seconds))
            .GroupBy(c => Math.Round(60 / (c.SecondsPerTick * ticksPerQuarter * quarters), 2))
            .MaxBy(g => g.Sum(c => c.Time))!.Key;
    }

    private static ImmutableArray<(long Tick, Meter Meter)> Meters(ImmutableArray<MidiEvent> events)
    {
        var written = events.OfType<TimeSignatureEvent>()
            .Where(t => t.Numerator is >= 1 and <= 32 && t.Denominator is >= 0 and <= 4)
            .Select(t => (t.AbsoluteTime, Meter.Of(t.Numerator, 1 << t.Denominator)))
            .DistinctBy(t => t.AbsoluteTime)
            .ToImmutableArray();
        return written.IsEmpty || written[0].AbsoluteTime > 0 ? written.Insert(0, (0L, Meter.CommonTime)) : written;
    }
}
