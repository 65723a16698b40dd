using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings;

/// <summary>Takes interleaved blocks, weighs every sample, mixes down and resamples, and keeps only the result.</summary>
internal sealed class SampleIntake
{
    /// <summary>−70 dBFS, the level that ITU-R BS.1770-4 counts as silence.</summary>
    private const float SilencePeak = 3.1623e-4f;

    private readonly string path;
    private readonly SampleRate from;
    private readonly SampleRate to;
    private readonly int channels;
    private readonly ChannelIntake[] results;
    private float[] lane = [];
    private long frames;
    private float peak;

    /// <param name="expected">The likely length; the room for the result is made at once.</param>
    public SampleIntake(string path, SampleSource source, bool mono, SampleRate to, Seconds expected)
    {
        (this.path, from, channels, this.to) = (path, source.Rate, source.Channels, to);
        var room = to.SamplesIn(expected);
        results = [.. Enumerable.Range(0, mono ? 1 : channels).Select(_ => new ChannelIntake(from, to, room))];
    }

    /// <summary>How much has come in.</summary>
    public Seconds Duration => from.TimeOf(frames);

    public void Take(ReadOnlySpan<float> block)
    {
        Weigh(block);
        var count = block.Length / channels;
        if (lane.Length < count)
            lane = new float[count];
        for (var result = 0; result < results.Length; result++)
        {
            FillLane(block, result);
            results[result].Take(lane.AsSpan(0, count));
        }
        frames += count;
    }

    public Signal Finish()
    {
        if (peak < SilencePeak)
            throw new RecordingException($"{path}: the recording is silent: nothing in it is louder than -70 dB of full scale. Check that it plays, and that the right track was exported.");
        return new(to, [.. results.Select(r => r.Finish())]);
    }

    private void Weigh(ReadOnlySpan<float> block)
    {
        for (var i = 0; i < block.Length; i++)
        {
            if (!float.IsFinite(block[i]))
                throw new RecordingException($"{path}: the file is damaged: the sample at {Words.Time(Duration + from.TimeOf(i / channels))} (sample {frames + i / channels}) isn't a number. Export the recording again.");
            peak = Math.Max(peak, Math.Abs(block[i]));
        }
    }

    private void FillLane(ReadOnlySpan<float> block, int result)
    {
        for (var frame = 0; frame * channels < block.Length; frame++)
            lane[frame] = results.Length == channels ? block[frame * channels + result] : Mean(block.Slice(frame * channels, channels));
    }

    private static float Mean(ReadOnlySpan<float> values)
    {
        var sum = 0f;
        foreach (var value in values)
            sum += value;
        return sum / values.Length;
    }
}
