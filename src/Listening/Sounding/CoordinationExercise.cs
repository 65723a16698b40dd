using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Sounding;

/// <summary>One speed of an exercise.</summary>
/// <param name="Speed">Share of the song's tempo.</param>
/// <param name="Tempo">Felt beats a minute.</param>
/// <param name="At">Where its count-in starts.</param>
public readonly record struct ExerciseStage(double Speed, double Tempo, Seconds At);

/// <summary>
/// Voice and guitar as two lines to practise, slow to fast: a short voiced tick on every syllable over the guitar's strokes, with a
/// click on the beats and a bar of clicks before each speed. Levels are kept moderate, as an <see cref="Audition"/>'s are.
/// </summary>
public static class CoordinationExercise
{
    /// <summary>Two channels at 44.1 kHz, one speed after the other.</summary>
    /// <exception cref="ArgumentException">No syllable starts in these bars.</exception>
    public static (Signal Sound, ImmutableArray<ExerciseStage> Stages) Render(Song song, ExerciseOptions options, IProgress<Progress>? progress, CancellationToken ct)
    {
        options.Require(song.Bars.Count());
        var looped = Looped(song, options);
        if (looped.Bars.All(b => b.Sung.IsEmpty))
            throw new ArgumentException($"No syllable starts in bars {options.FirstBar} to {options.LastBar}, so there are no two lines to practise.", nameof(options));
        var parts = options.Speeds.Select((speed, i) => Part(i)).ToArray();
        var stages = ImmutableArray.CreateBuilder<ExerciseStage>();
        var at = 0;
        for (var i = 0; i < parts.Length; i++)
        {
            stages.Add(new(options.Speeds[i], looped.Tempo.Value * options.Speeds[i], parts[i].Rate.TimeOf(at)));
            at += parts[i].Length;
        }
        return (Joined(parts), stages.ToImmutable());

        Signal Part(int i)
        {
            progress?.Report(new($"sounding {options.Speeds[i] * 100:0}% of the tempo", (double)i / options.Speeds.Length));
            return Audition.Render(looped, AtSpeed(options, options.Speeds[i]), ct);
        }
    }

    private static AuditionOptions AtSpeed(ExerciseOptions options, double speed) => new()
    {
        Parts = AuditionParts.Guitar | AuditionParts.Sung | AuditionParts.Click,
        CountInBars = 1,
        Speed = speed,
        Loudness = options.Loudness,
    };

    /// <summary>The bars, round after round, at their mean tempo and without anchors. What rings on past the last of them stops there.</summary>
    private static Song Looped(Song song, ExerciseOptions options)
    {
        Bar[] once = [.. song.Bars.Skip(options.FirstBar - 1).Take(options.LastBar - options.FirstBar + 1)];
        var clock = new SongClock(song);
        var minutes = (clock.TimeOf(options.LastBar + 1) - clock.TimeOf(options.FirstBar)).Value / 60;
        var beats = once.Sum(b => b.Meter.BarLength.Value);
        var clipped = Clipped(once);
        var bars = Enumerable.Range(0, options.Rounds).SelectMany(_ => clipped).Select((bar, i) => bar with { Number = i + 1 });
        return song with { Tempo = song.Tempo with { Value = beats / minutes }, Sections = [new("Exercise", [], [.. bars])] };
    }

    private static IEnumerable<Bar> Clipped(Bar[] bars)
    {
        var left = bars.Aggregate(Beats.Zero, (sum, b) => sum + b.Meter.BarLength);
        foreach (var bar in bars)
        {
            yield return bar with { Sung = Until(bar.Sung, left), Picked = Until(bar.Picked, left), Strums = Until(bar.Strums, left) };
            left -= bar.Meter.BarLength;
        }
    }

    private static ImmutableArray<Claim<T>> Until<T>(ImmutableArray<Claim<T>> claims, Beats end) =>
        [.. claims.Select(c => c.Start + c.Length > end ? c with { Length = end - c.Start } : c)];

    private static Signal Joined(Signal[] parts) =>
        new(parts[0].Rate, [.. Enumerable.Range(0, parts[0].Channels.Count).Select(c => parts.SelectMany(p => p.Channels[c]).ToArray())]);
}
