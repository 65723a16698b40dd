using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Checking.Lines;

/// <summary>What the holes that are written say of the harmonica's key, made out or not: how sure they are, and in which key their reeds sound most.</summary>
internal static class HarpHoles
{
    private const double Most = 10;

    /// <summary>The finding on a harmonica's key with what its holes say.</summary>
    /// <param name="all">The song's findings, those on its holes among them.</param>
    public static Finding Tell(Finding finding, Song song, SongClock clock, Hearing hearing, IEnumerable<Finding> all)
    {
        if (all.Where(f => f.Kind == ClaimKind.Hole).Average(f => f.LogOdds) is not { } sure)
            return finding;
        var counted = finding with { Clues = finding.Clues.SetItem("holes", Math.Clamp(sure, -Most, Most)) };
        var claim = song.Harp!.Value;
        var reed = new LineStarts(hearing.Evidence.Lines, hearing.Evidence.Notes.Hop.Value, LineStarts.Reed);
        var best = Harmonica.UsualKeys.Select(key => claim with { Key = key }).MaxBy(other => Sounding(other.ToHarmonica(), song, clock, reed))!;
        return best.Key.PitchClass == claim.Key.PitchClass ? counted : counted with
        {
            Heard = $"the holes sound as on a harp in {best.Key}", Suggestion = $"a harp in {best.Key}", Rival = new($"a harp in {best.Key}", 0),
        };
    }

    /// <summary>How surely the reeds of the written holes sound if the harmonica is this one.</summary>
    private static double Sounding(Harmonica harp, Song song, SongClock clock, LineStarts reed)
    {
        return song.Bars.SelectMany(bar => bar.Harp.Where(h => harp.Has(h.Value))
            .Select(h => reed.Sounds(harp.PitchOf(h.Value).Midi, Time(bar, h.Start), Time(bar, h.Start + h.Length)))).Sum();

        double Time(Bar bar, Beats beat) => clock.TimeOf(bar.Number, beat).Value;
    }
}
