using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>A note of the harmonica as it is about to sound.</summary>
internal readonly record struct BlownNote(int Midi, Seconds At, Seconds Until, double Strength, HarpNote Hole);

/// <summary>Turns a song's harmonica line into pitches; notes that the instrument lacks are left out, for the check to report.</summary>
internal sealed class HarpPart(Song song, IBarTimes times, Touch touch)
{
    public List<BlownNote> Play()
    {
        if (song.Harp?.Value is not { } reference)
            return [];
        var harmonica = reference.ToHarmonica();
        return [.. song.Bars.SelectMany(bar => bar.Harp.GroupBy(c => c.Start).SelectMany(breath => Blow(harmonica, bar.Number, [.. breath])))];
    }

    private IEnumerable<BlownNote> Blow(Harmonica harmonica, int bar, List<Claim<HarpNote>> breath)
    {
        var start = touch.Around(times.At(bar, breath[0].Start));
        var strength = touch.Strength(0.6 / Math.Sqrt(breath.Count));
        foreach (var claim in breath)
        {
            if (harmonica.FindPitch(claim.Value) is { } pitch)
                yield return new(pitch.Midi, start, times.At(bar, claim.Start + claim.Length) - Seconds.FromMilliseconds(25), strength, claim.Value);
        }
    }
}
