using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Samples;

/// <summary>Takes interleaved blocks, weighs every sample, mixes down and resamples, and stores only the result.</summary>
internal sealed class SampleIntake
{
    /// <summary>−70 dBFS, the level that ITU-R BS.1770-4 counts as silence.</summary>
    private const float SilencePeak = 3.1623e-4f;

    private readonly string path;
    private readonly SampleRate from;
    private readonly int channels;
    private readonly ChannelIntake[] results;
    private float[] lane = [];
    private long frames;
    private float peak;

    /// <param name="stores">One for each channel, or one for the mean of all.</param>
    public SampleIntake(string path, SampleSource source, SampleRate to, IEnumerable<ISampleStore> stores)
    {
        (this.path, from, channels) = (path, source.Rate, source.Channels);
        results = [.. stores.Select(store => new ChannelIntake(from, to, store))];
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

    public void Finish()
    {
        if (peak < SilencePeak)
            throw new RecordingException($"{path}: the recording is silent: nothing in it is louder than -70 dB of full scale. Check that it plays, and that "
                + "the right track was exported.");
        foreach (var result in results)
            result.Finish();
    }

    private void Weigh(ReadOnlySpan<float> block)
    {
        for (var i = 0; i < block.Length; i++)
        {
            if (!float.IsFinite(block[i]))
                throw new RecordingException($"{path}: the file is damaged: the sample at {Words.Time(Duration + from.TimeOf(i / channels))} (sample "
                    + $"{frames + i / channels}) isn't a number. Export the recording again.");
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
