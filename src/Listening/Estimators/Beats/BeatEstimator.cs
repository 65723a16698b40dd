using Harkbook.Audio.Signals;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// Finds tempo, meter, beats and downbeats: a network hears where beats and bars may fall (<see cref="PulseNetwork"/>), and of all rows of beats and
/// bars the one that agrees best with it, with what starts when, with the accents of notes and with what a person claims is read
/// (<see cref="BeatReading"/>).
/// </summary>
public sealed class BeatEstimator(BeatOptions? options = null)
{
    private readonly BeatOptions options = Checked(options ?? new());

    /// <summary>Go without the network: by what starts when alone, as its yardstick.</summary>
    internal bool Plain { get; init; }

    /// <summary>Beats of a sound of which nothing else is known.</summary>
    /// <param name="mono">One channel, at any rate.</param>
    public BeatEstimate Estimate(ISound mono, CancellationToken cancellation = default)
    {
        if (mono.ChannelCount != 1)
            throw new ArgumentException($"Beats are found in one channel and this signal has {mono.ChannelCount}; call ToMono first.", nameof(mono));
        return Read(new BeatReading(Hear(mono, cancellation), [], cancellation: cancellation), Claims.None, cancellation);
    }

    /// <summary>The first half of the work: what the sound says of beats.</summary>
    /// <param name="mono">One channel, at any rate.</param>
    internal PulseSound Hear(ISound mono, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        var sound = mono.At(PulseBands.Rate);
        if (SoundingSpan.Of(sound) is not { } span)
            return PulseSound.None;
        var bands = KeptBands.Of(new PulseBands(sound), cancellation);
        return new(Weigh(bands, cancellation).Rounded(), bands, span);
    }

    /// <summary>The second half: the beats that fit it best, and what a person claims.</summary>
    internal BeatEstimate Read(BeatReading reading, Claims claims, CancellationToken cancellation) => reading.Read(claims, options, cancellation);

    private PulseEvidence Weigh(KeptBands bands, CancellationToken cancellation)
    {
        if (Plain)
            return FluxPulse.Of(bands, cancellation).Weigh();
        using var network = PulseNetwork.Shipped();
        return network.Weigh(bands, cancellation);
    }

    private static BeatOptions Checked(BeatOptions options)
    {
        options.Require();
        return options;
    }
}
