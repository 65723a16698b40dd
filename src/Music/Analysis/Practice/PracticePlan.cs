using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Practice;

/// <summary>
/// Some bars of a song laid out for practice, slow to fast and round after round, as a song of its own: a section a speed, counted
/// or silent bars between, every bar's time anchored. So whatever sounds, draws or films a song does it for a practice too.
/// </summary>
/// <param name="Song">Bars numbered from 1; no recording.</param>
/// <param name="CountedBars">Numbers of the bars that only count in.</param>
/// <param name="Length">Where the last round ends.</param>
public sealed record PracticePlan(Song Song, ImmutableArray<PracticeStage> Stages, ImmutableArray<int> CountedBars, Seconds Length)
{
    /// <summary>What each bar is called: its number in the song that is practised, "count in" or "rest".</summary>
    public required ImmutableArray<string> BarNames { get; init; }

    public static PracticePlan Of(Song song, PracticeOptions options)
    {
        options.Require(song.Bars.Count());
        return new PracticeLayout(song, options).LayOut();
    }

    /// <summary>"60%, 62 beats a minute".</summary>
    public static string NameOf(double speed, double tempo) => string.Create(CultureInfo.InvariantCulture, $"{speed * 100:0}%, {TempoText.Of(tempo)}");
}
