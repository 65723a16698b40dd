using Harkbook.Audio.Signals;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// Finds tempo, meter, beats and downbeats: a network hears where beats and bars may fall (<see cref="PulseNetwork"/>), and the bar-pointer model
/// (<see cref="BarPointer"/>) finds the row of beats and bars that agrees best with all of it. Beats that a person put down are passed through.
/// </summary>
public sealed class BeatEstimator(BeatOptions? options = null)
{
    private readonly BeatOptions options = Checked(options ?? new());

    /// <summary>How the decoder weighs its evidence.</summary>
    internal DecoderOptions Decoder { get; init; } = new();

    /// <summary>Go without the network.</summary>
    internal bool Plain { get; init; }

    /// <param name="mono">One channel, at any rate.</param>
    public BeatEstimate Estimate(ISound mono, CancellationToken cancellation = default) => Estimate(mono, [], cancellation);

    /// <param name="mono">One channel, at any rate.</param>
    /// <param name="anchors">Beats that a person put down, in any order. Evenly spaced ones needn't be neighbours.</param>
    public BeatEstimate Estimate(ISound mono, IReadOnlyList<BeatAnchor> anchors, CancellationToken cancellation = default)
    {
        if (mono.ChannelCount != 1)
            throw new ArgumentException($"Beats are found in one channel and this signal has {mono.ChannelCount}; call ToMono first.", nameof(mono));
        if (anchors.FirstOrDefault(a => a.PositionInBar is < 1 or > 4) is { } odd)
            throw new ArgumentOutOfRangeException(nameof(anchors), odd.PositionInBar, "A beat's position in its bar is 1 to 4.");
        return Read(Hear(mono, cancellation), anchors, cancellation);
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
        return new(Weigh(bands, FluxPulse.Of(bands, cancellation), cancellation).Rounded(), bands, span);
    }

    /// <summary>The second half: the beats that fit it best.</summary>
    internal BeatEstimate Read(PulseSound heard, IReadOnlyList<BeatAnchor> anchors, CancellationToken cancellation)
    {
        if (heard.Span is not { } span)
            return BeatAnswers.Nothing("no sound was heard");
        var flux = FluxPulse.Of(heard.Bands, cancellation);
        return Solve(heard.Curves, heard.Bands, flux.Onsets(), span with { Last = Math.Min(span.Last, flux.LastOnset()) }, anchors, cancellation);
    }

    /// <summary>From evidence to beats, and a second look at bars.</summary>
    /// <param name="bands">Of the sound itself.</param>
    /// <param name="onsets">As <see cref="FluxPulse.Onsets"/> tells.</param>
    internal BeatEstimate Solve(PulseEvidence evidence, IPulseBands bands, double[] onsets, SoundingSpan span, IReadOnlyList<BeatAnchor> anchors, CancellationToken cancellation)
    {
        var (rows, weighed) = Decode(evidence, onsets, span, anchors, cancellation);
        if (evidence.Learned)
            rows = [.. rows.Select(r => r.Placed(BarCheck.Apply(r.Beats, bands, weighed, anchors, cancellation)))];
        return Answer(rows, weighed);
    }

    /// <summary>From evidence to beats, with nothing else known of the sound.</summary>
    internal BeatEstimate Solve(PulseEvidence evidence, SoundingSpan span, IReadOnlyList<BeatAnchor> anchors, CancellationToken cancellation)
    {
        var (rows, weighed) = Decode(evidence, span, anchors, cancellation);
        return Answer(rows, weighed);
    }

    /// <summary>The likeliest rows, none of which has every other beat in silence; and the evidence as the anchors left it.</summary>
    internal (List<BeatRow> Rows, PulseEvidence Weighed) Decode(PulseEvidence evidence, double[] onsets, SoundingSpan span, IReadOnlyList<BeatAnchor> anchors, CancellationToken cancellation)
    {
        var heard = Decode(evidence, span, anchors, cancellation);
        return SilentBeats.Alternate([.. heard.Rows.SelectMany(r => r.Beats)], onsets) ? Decode(SilentBeats.Discredit(evidence, onsets), span, anchors, cancellation) : heard;
    }

    private (List<BeatRow> Rows, PulseEvidence Weighed) Decode(PulseEvidence evidence, SoundingSpan span, IReadOnlyList<BeatAnchor> anchors, CancellationToken cancellation)
    {
        var rows = Rows(evidence, span, [], cancellation);
        if (anchors.Count == 0)
            return (rows, evidence);
        var settled = Contradiction.Settle(evidence, [.. rows.SelectMany(r => r.Beats)], anchors);
        return (Rows(settled, span, anchors, cancellation), settled);
    }

    private static BeatEstimate Answer(List<BeatRow> rows, PulseEvidence evidence) =>
        rows.Sum(r => r.Beats.Count) < 2 ? BeatAnswers.Nothing("no beat was felt") : BeatAnswers.Of(rows, evidence);

    private List<BeatRow> Rows(PulseEvidence evidence, SoundingSpan span, IReadOnlyList<BeatAnchor> anchors, CancellationToken cancellation)
    {
        var shortest = (int)Math.Floor(60 * PulseEvidence.FrameRate / options.FastestBeatsPerMinute);
        var longest = (int)Math.Ceiling(60 * PulseEvidence.FrameRate / options.SlowestBeatsPerMinute);
        var scores = new PulseScores(evidence, shortest, longest - shortest + 1, Decoder, anchors);
        var rows = new List<BeatRow>();
        BarPointer? pointer = null;
        foreach (var piece in span.Pieces())
        {
            pointer = new BarPointer(scores, Decoder, piece.First, piece.Last, pointer);
            var beats = pointer.Decode(cancellation);
            // A beat on the border may be found on both of its sides.
            if (rows is [.., { Beats: [.., var before] }])
                beats.RemoveAll(b => b.Frame - before.Frame < before.Interval / 2);
            rows.Add(new(beats, scores, pointer.Marginals(cancellation), piece.First));
        }
        return rows;
    }

    private PulseEvidence Weigh(IPulseBands bands, FluxPulse flux, CancellationToken cancellation)
    {
        if (Plain)
            return flux.Weigh();
        try
        {
            using var network = PulseNetwork.Shipped();
            return network.Weigh(bands, cancellation);
        }
        catch (Exception e) when (e is DllNotFoundException or TypeInitializationException or EntryPointNotFoundException)
        {
            return flux.Weigh();
        }
    }

    private static BeatOptions Checked(BeatOptions options)
    {
        options.Require();
        return options;
    }
}
