using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>What the decoder adds up: how much more likely each frame's evidence is if a beat, at a place in the bar and at a tempo, falls on it.</summary>
internal sealed class PulseScores
{
    private const double UsualDownbeat = 0.3;
    private const float Forced = 60;

    // Beats that people tap: log-normal about 0.55 s (A. Klapuri, A. Eronen and J. Astola, "Analysis of the meter of acoustic
    // musical signals", IEEE Trans. Audio, Speech and Language Processing 14, 2006; the two values from memory).
    public const double UsualInterval = 0.55;
    private const double UsualSpread = 0.28;

    private readonly float[] beat;
    private readonly float[] tempo;
    private readonly float[] first;
    private readonly float[] other;
    private readonly float[] kinds;
    private readonly int[] anchored;

    public PulseScores(PulseEvidence evidence, int shortest, int intervals, DecoderOptions options, IReadOnlyList<BeatAnchor> anchors)
    {
        (Shortest, Intervals) = (shortest, intervals);
        var frames = evidence.Frames;
        (beat, first, other, tempo) = (new float[frames], new float[frames], new float[frames], new float[frames * intervals]);
        kinds = new float[frames * 3];
        for (var f = 0; f < frames; f++)
        {
            beat[f] = (float)(options.BeatWeight * Math.Clamp(LogOdds.Of(evidence.Beat[f]) - LogOdds.Of(options.UsualBeat), -4, 5));
            var share = Math.Clamp(evidence.Downbeat[f] / (evidence.Beat[f] + 0.02), 0.03, 0.97);
            first[f] = (float)(options.BarWeight * Math.Log(share / UsualDownbeat));
            other[f] = (float)(options.BarWeight * Math.Log((1 - share) / (1 - UsualDownbeat)));
            FillTempo(evidence, f, options);
            FillKinds(evidence, f, options);
        }
        anchored = Anchored(frames, anchors);
    }

    public int Shortest { get; }

    public int Intervals { get; }

    public int Frames => beat.Length;

    /// <summary>A beat at this frame and place in the bar.</summary>
    public float Beat(int frame, int place)
    {
        var score = beat[frame] + (BarModel.IsDownbeat(place) ? first[frame] : other[frame]) + kinds[frame * 3 + BarModel.KindOf[place]];
        return anchored[frame] switch
        {
            < 0 => score,
            0 => score + Forced,
            var position => BarModel.PositionOf(place) == position ? score + Forced : score - Forced,
        };
    }

    /// <summary>The interval that ends at this frame.</summary>
    public ReadOnlySpan<float> Tempo(int frame) => tempo.AsSpan(frame * Intervals, Intervals);

    private void FillTempo(PulseEvidence evidence, int frame, DecoderOptions options)
    {
        for (var i = 0; i < Intervals; i++)
        {
            var seconds = (Shortest + i) / PulseEvidence.FrameRate;
            var usual = -0.5 * Math.Pow(Math.Log(seconds / UsualInterval) / UsualSpread, 2);
            var place = Math.Clamp(PulseEvidence.PlaceOf(60 * PulseEvidence.FrameRate / (Shortest + i)), 0, PulseEvidence.Tempi - 1.001);
            var (low, part) = ((int)place, place - (int)place);
            var share = evidence.Tempo[frame, low] * (1 - part) + evidence.Tempo[frame, low + 1] * part;
            tempo[frame * Intervals + i] = (float)(options.TempoWeight * Math.Log(0.1 + share * PulseEvidence.Tempi) + options.UsualTempoWeight * usual);
        }
    }

    /// <summary>Music in 2/4 is often counted in four: a part of what speaks for 2/4 goes to 4/4.</summary>
    private void FillKinds(PulseEvidence evidence, int frame, DecoderOptions options)
    {
        var two = options.CountedInTwo * evidence.Meter[frame, 0];
        double[] shares =
        [
            two + evidence.Meter[frame, 3],
            evidence.Meter[frame, 1],
            evidence.Meter[frame, 0] - two + evidence.Meter[frame, 2] + evidence.Meter[frame, 4],
        ];
        for (var k = 0; k < 3; k++)
            kinds[frame * 3 + k] = (float)(options.MeterWeight * Math.Log(3 * (0.05 + shares[k]) / 1.15));
    }

    /// <summary>−1 where no anchor is, 0 where a beat must fall, else the beat's position in its bar.</summary>
    private static int[] Anchored(int frames, IReadOnlyList<BeatAnchor> anchors)
    {
        var places = new int[frames];
        Array.Fill(places, -1);
        foreach (var anchor in anchors)
        {
            var frame = (int)Math.Round(anchor.Time.Value * PulseEvidence.FrameRate);
            if (frame >= 0 && frame < frames)
                places[frame] = anchor.PositionInBar ?? 0;
        }
        return places;
    }
}
