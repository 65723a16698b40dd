using Harkbook.Audio.Recordings.Samples;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Audio.Synthesis.Voices;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>
/// Sounds what a song claims, so that an ear can weigh it: alone, or against the recording. Levels are kept moderate
/// (−18 LUFS unless asked otherwise); a player on headphones should still start with the volume low.
/// </summary>
public static class Audition
{
    private const double TailSeconds = 2.5;
    private static readonly Loudness even = Loudness.FromLufs(-23);
    private static readonly SampleRate Rate = SampleRate.FromHertz(44_100);

    /// <summary>Two channels at 44.1 kHz in memory, from the count-in (or the first bar) until the last bar has died away.</summary>
    public static Signal Render(Song song, AuditionOptions options, CancellationToken ct)
    {
        using var sound = Store(song, options, ct);
        return sound.Cut(0, sound.Length);
    }

    /// <summary>The same on the disk, sounded a block at a time: a long song needs no more memory than a short one.</summary>
    /// <returns>To be disposed of.</returns>
    public static StoredSound Store(Song song, AuditionOptions options, CancellationToken ct)
    {
        Check(song, options);
        var times = new AuditionTimes(song, options);
        var heard = Between(song, times.First, times.Last);
        using var claims = Claims(heard, options, times, times.End + Seconds.FromSeconds(TailSeconds), ct);
        if (options.Against is not { } recording)
            return Mixer.StoreMaster(claims, options.Loudness, ct);
        using var beside = Beside(claims, recording, options, times, ct);
        return Mixer.StoreMaster(beside, options.Loudness, ct);
    }

    /// <summary>How long the sound will be.</summary>
    public static Seconds LengthOf(Song song, AuditionOptions options) =>
        Rate.TimeOf(Rate.SamplesIn(new AuditionTimes(song, options).End + Seconds.FromSeconds(TailSeconds)));

    /// <summary>The clicks alone, not brought to any loudness.</summary>
    internal static Signal Clicks(Song song, AuditionOptions options, Seconds length) =>
        Click.Sound(Rate, Clicks(song, options, new AuditionTimes(song, options)), length);

    private static void Check(Song song, AuditionOptions options)
    {
        var bars = song.Bars.Count();
        if (options.Speed is not (>= 0.25 and <= 2))
            throw new ArgumentOutOfRangeException(nameof(options), options.Speed, "An audition runs at 0.25 to 2 times the record's speed.");
        if (options.CountInBars is < 0 or > 8)
            throw new ArgumentOutOfRangeException(nameof(options), options.CountInBars, "A count-in is 0 to 8 bars.");
        if (options.Loudness.Lufs is not (>= -40 and <= -14))
            throw new ArgumentOutOfRangeException(nameof(options), options.Loudness,
                "An audition's loudness is -40 to -14 LUFS, so that it is safe on headphones.");
        var (first, last) = (options.FirstBar ?? 1, options.LastBar ?? bars);
        if (first < 1 || last < first || last > bars)
            throw new ArgumentOutOfRangeException(nameof(options), (first, last), $"The song has bars 1 to {bars}.");
        if (options.Against is { } recording && recording.Rate != Rate)
            throw new ArgumentException($"The recording runs at {recording.Rate}; read it at {Rate} for an audition.", nameof(options));
    }

    /// <summary>The song with nothing claimed outside a range of bars, so that bar numbers and times stay.</summary>
    private static Song Between(Song song, int first, int last) =>
        song with { Sections = [.. song.Sections.Select(
            s => s with { Bars = [.. s.Bars.Select(b => b.Number >= first && b.Number <= last ? b : new Bar { Number = b.Number, Meter = b.Meter })] })] };

    private static StoredSound Claims(Song song, AuditionOptions options, AuditionTimes times, Seconds length, CancellationToken ct)
    {
        var parts = new List<StoredSound>();
        try
        {
            var tracks = new List<Track>();
            foreach (var (blocks, decibels, pan) in Parts(song, options, times, length, ct))
            {
                parts.Add(StoredSound.Of(Rate, blocks.Select(b => new[] { b })));
                tracks.Add(new(parts[^1], decibels, pan));
            }
            return Mixer.Store(Rate, tracks);
        }
        finally
        {
            parts.ForEach(p => p.Dispose());
        }
    }

    private static IEnumerable<(IEnumerable<float[]> Blocks, double Decibels, double Pan)> Parts(Song song, AuditionOptions options, AuditionTimes times,
        Seconds length, CancellationToken ct)
    {
        var instruments = new Instruments(Rate, song.ReferencePitch.Value, song.Tuning.Value, length, options.Seed);
        if (options.Parts.HasFlag(AuditionParts.Guitar))
            yield return (instruments.GuitarBlocks(new GuitarPart(song, times, Touch.Exact).Play(), options.Strings, ct), 0, -0.1);
        if (options.Parts.HasFlag(AuditionParts.Harp) && song.Harp is not null)
            yield return (instruments.HarpBlocks(new HarpPart(song, times, Touch.Exact).Play(), ct), -4, 0.25);
        if (options.Parts.HasFlag(AuditionParts.Sung))
            yield return (new VoiceLike(Rate, options.Seed).Blocks(SungTicks.Of(Ticking(song, options), times, instruments), length, ct), -3, 0.1);
        if (options.Parts.HasFlag(AuditionParts.Tune))
        {
            foreach (var line in new TunePart(song, times, instruments).Lines(options, Rate, length, ct))
                yield return (line, -3, 0.1);
        }
        if (options.Parts.HasFlag(AuditionParts.Click) || options.ClickedBars is not null || options.CountInBars > 0)
            yield return (Click.Blocks(Rate, Clicks(song, options, times), length, ct), -8, 0);
    }

    /// <summary>Where the tune's notes sound, the syllables on them need no tick.</summary>
    private static Song Ticking(Song song, AuditionOptions options) => !options.Parts.HasFlag(AuditionParts.Tune) ? song : song with
    {
        Sections = [.. song.Sections.Select(s => song.TunePlayerIn(s) != TunePlayer.Voice ? s : s with
        {
            Bars = [.. s.Bars.Select(b => b.Tune.IsEmpty ? b : b with { Sung = [.. b.Sung.Where(x => b.Tune.All(t => t.Start != x.Start))] })],
        })],
    };

    private static IEnumerable<ClickBeat> Clicks(Song song, AuditionOptions options, AuditionTimes times)
    {
        for (var beat = options.CountInBars * times.BeatsPerBar; beat >= 1; beat--)
            yield return new(times.BeforeStart(beat), beat % times.BeatsPerBar == 0);
        foreach (var bar in song.Bars.Where(b => b.Number >= times.First && b.Number <= times.Last && Clicks(b)))
        {
            for (var beat = 0; beat < bar.Meter.BeatsPerBar; beat++)
                yield return new(times.At(bar.Number, Beats.Whole(beat)), beat == 0);
        }

        bool Clicks(Bar bar) => options.ClickedBars?.Contains(bar.Number) ?? options.Parts.HasFlag(AuditionParts.Click);
    }

    /// <summary>Claims and recording at one loudness, side by side or together.</summary>
    private static StoredSound Beside(ISound claims, ISound recording, AuditionOptions options, AuditionTimes times, CancellationToken ct)
    {
        var offset = Rate.SamplesIn(times.FromRecording(default));
        var placed = new ShiftedSound(recording.ToMono(), offset, Math.Max(claims.Length, options.LastBar is null ? recording.Length + offset : 0));
        using var levelled = Mixer.StoreMaster(claims.ToMono(), even, ct);
        using var against = Mixer.StoreMaster(placed, even, ct);
        return options.Placement == AgainstPlacement.Sides
            ? Mixer.Store(Rate, [new(levelled, 0, -1), new(against, 0, 1)])
            : Mixer.Store(Rate, [new(levelled), new(against)]);
    }
}
