using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Music.Analysis.Practice;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>
/// A practice for the ear: our own strings with the tune, or a short voiced tick on every syllable that has none, or the recording itself, and clicks. Levels
/// are kept moderate, as an <see cref="Audition"/>'s are.
/// </summary>
public static class PracticeSound
{
    private static readonly SampleRate Rate = SampleRate.FromHertz(44_100);

    /// <summary>The claims, two channels at 44.1 kHz.</summary>
    /// <param name="click">Whether every bar clicks; the counted ones do anyway.</param>
    public static Signal OfClaims(PracticePlan plan, bool click, CancellationToken ct) =>
        Audition.Render(plan.Song, Options(plan, click, AuditionParts.Guitar | AuditionParts.Sung | AuditionParts.Tune), ct);

    /// <summary>The recording, two channels at 44.1 kHz.</summary>
    /// <param name="passages">The practised bars of the recording at 44.1 kHz, stretched to each stage's speed.</param>
    public static Signal OfRecording(PracticePlan plan, IReadOnlyList<Signal> passages, bool click, CancellationToken ct)
    {
        var clicks = Audition.Clicks(plan.Song, Options(plan, click, AuditionParts.None), plan.Length);
        var played = new float[2][].Select(_ => new float[clicks.Length]).ToArray();
        for (var stage = 0; stage < plan.Stages.Length; stage++)
        {
            foreach (var round in plan.Stages[stage].Rounds)
            {
                ct.ThrowIfCancellationRequested();
                Place(passages[stage], Rate.SamplesIn(round), played);
            }
        }
        return Mixer.Master(Mixer.Sum(Rate, [new(new Signal(Rate, played)), new(clicks, -8)]), Loudness.FromLufs(-18));
    }

    private static AuditionOptions Options(PracticePlan plan, bool click, AuditionParts parts) =>
        new() { Parts = click ? parts | AuditionParts.Click : parts, ClickedBars = click ? null : plan.CountedBars };

    private static void Place(Signal passage, int at, float[][] into)
    {
        var fade = Rate.SamplesIn(Seconds.FromMilliseconds(5));
        for (var channel = 0; channel < into.Length; channel++)
        {
            var from = passage.Channels[Math.Min(channel, passage.Channels.Count - 1)];
            for (var i = 0; i < from.Length && at + i < into[channel].Length; i++)
                into[channel][at + i] += from[i] * Math.Min(1, Math.Min((float)i / fade, (float)(from.Length - i) / fade));
        }
    }
}
