using Harkbook.Listening.Checking;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;
using Harkbook.Music.Theory;

namespace Harkbook.Bench.Planted;

/// <summary>A wrong tuning, capo, key and level of the beat.</summary>
internal sealed class FactErrors(Song song, Random chance)
{
    public IEnumerable<PlantedError> All() => Tunings().Concat(Capos()).Concat(Keys()).Concat(Levels()).Concat(Harps());

    private static bool IsWhole(Finding finding) => finding.Where is null;

    private IEnumerable<PlantedError> Tunings() =>
        from s in Enumerable.Range(0, song.Tuning.Value.Count)
        let strings = song.Tuning.Value.Strings
        let wrong = Tuning.Of(strings.SetItem(s, Pitch.FromMidi(strings[s].Midi + (chance.Next(2) == 0 ? 2 : -2))))
        select new PlantedError("tuning string a tone off", [ClaimKind.Tuning, ClaimKind.TuningString], _ => true)
        {
            Song = song with { Tuning = song.Tuning with { Value = wrong } },
            Truth = [song.Tuning.Value.ToString(), strings[s].ToString()],
        };

    private IEnumerable<PlantedError> Capos() =>
        from fret in Enumerable.Range(song.Capo.Value.Fret - 2, 5)
        where fret >= 0 && fret != song.Capo.Value.Fret && !song.Capo.Value.IsPartial
        select new PlantedError("capo one or two off", [ClaimKind.Tuning, ClaimKind.TuningString],
            IsWhole) { Song = song with { Capo = song.Capo with { Value = Capo.At(fret) } }, Truth = [song.Tuning.Value.ToString()] };

    private IEnumerable<PlantedError> Keys() =>
        from name in new[] { Moved("5", false), Moved("4", false), Moved("1", true), Moved("2", false) }
        select new PlantedError("key wrong", [ClaimKind.Key], IsWhole) { Song = song with { Key = song.Key with { Value = name } },
            Truth = [song.Key.Value.ToString()] };

    private Key Moved(string degree, bool parallel)
    {
        var key = song.Key.Value;
        var tonic = key.Tonic + Interval.ParseDegree(degree);
        return Key.Parse($"{tonic} {(parallel == key.ToString().EndsWith("minor", StringComparison.Ordinal) ? "major" : "minor")}");
    }

    private IEnumerable<PlantedError> Harps() =>
        from step in song.Harp is null ? [] : new[] { "4", "5", "2", "b7" }
        let key = song.Harp!.Value.Key + Interval.ParseDegree(step)
        select new PlantedError("harmonica in another key", [ClaimKind.Harp], IsWhole)
        {
            Song = song with { Harp = song.Harp! with { Value = song.Harp!.Value with { Key = key } } },
            Truth = [$"a harp in {song.Harp!.Value.Key}"],
        };

    /// <summary>The same times in bars of half the beats' level, and in bars of another meter.</summary>
    private IEnumerable<PlantedError> Levels()
    {
        if (TempoLevel.TryParse("half", out var half) && Rebarred(new(half, null)) is { } slow)
            yield return new("beat at half its level", [ClaimKind.Tempo, ClaimKind.Meter], IsWhole) { Song = slow, Truth = ["half of"] };
        var meter = Meter.Of(song.Meter.Value.Upper == 3 ? 4 : 3, 4);
        if (!song.Meter.Value.IsCompound && Rebarred(new(TempoLevel.Same, meter)) is { } other)
            yield return new("meter wrong", [ClaimKind.Meter], IsWhole) { Song = other, Truth = [song.Meter.Value.ToString()] };
    }

    private Song? Rebarred(BarChange change)
    {
        try
        {
            return SongText.Parse(SongRebarring.Of(SongText.Parse(SongText.Write(song), "song.hark"), change).Text, "song.hark").Song;
        }
        catch (RebarException)
        {
            return null;
        }
    }
}
