using Harkbook.Listening.Checking;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Bench.Planted;

/// <summary>Errors in the harmonica's line, in where syllables start, and in the tune.</summary>
internal sealed class VoiceErrors(Song song, Random chance)
{
    private static readonly ClaimKind[] hole = [ClaimKind.Hole, ClaimKind.Note];

    public IEnumerable<PlantedError> All() => Holes().Concat(Syllables()).Concat(Pitches()).Concat(Places());

    private IEnumerable<PlantedError> Holes()
    {
        if (song.Harp?.Value.ToHarmonica() is not { } harp)
            yield break;
        foreach (var (bar, claim) in song.Bars.SelectMany(b => b.Harp.Where(c => b.Harp.Count(o => o.Start == c.Start) == 1).Select(c => (b, c))))
        {
            var off = claim.Value with { Hole = claim.Value.Hole + (chance.Next(2) == 0 && claim.Value.Hole > 1 ? -1 : 1), Bend = 0 };
            var turned = claim.Value with { Breath = claim.Value.Breath == Breath.Blow ? Breath.Draw : Breath.Blow, Bend = 0 };
            foreach (var (kind, put) in new[] { ("harmonica hole off by one", off), ("harmonica breath turned", turned) }
                .Where(p => harp.FindPitch(p.Item2) is { } pitch && pitch.Midi != harp.FindPitch(claim.Value)?.Midi))
            {
                yield return new(kind, hole, SongParts.At(bar, claim.Start))
                {
                    Song = song.With(bar.Number, b => b with { Harp = b.Harp.With(claim, claim with { Value = put }) }),
                    Truth = [claim.Value.ToString(), $"{harp.FindPitch(claim.Value)}"],
                };
            }
        }
    }

    private IEnumerable<PlantedError> Syllables() =>
        from bar in song.Bars
        from claim in bar.Sung
        from start in SongParts.Moved(bar, claim, bar.Sung).OrderBy(_ => chance.Next()).Take(1)
        select new PlantedError("syllable an eighth off", [ClaimKind.Syllable], SongParts.At(bar, start))
        {
            Song = song.With(bar.Number, b => b with { Sung = b.Sung.With(claim, claim with { Start = start, Length = SongParts.Eighth(bar) }) }),
        };

    private IEnumerable<PlantedError> Pitches() =>
        from bar in song.Bars
        from claim in bar.Tune
        let step = (chance.Next(2) == 0 ? 1 : -1) * chance.Next(1, 3)
        select new PlantedError("tune a step off", [ClaimKind.TuneNote], SongParts.At(bar, claim.Start))
        {
            Song = song.With(bar.Number, b => b with { Tune = b.Tune.With(claim, claim with { Value = claim.Value with { Pitch = Moved(claim, step) } }) }),
            Truth = [claim.Value.Pitch.ToString()],
        };

    private static Pitch Moved(Claim<TuneNote> claim, int by) => Pitch.FromMidi(claim.Value.Pitch.Midi + by, claim.Value.Pitch.Name.Fifths);

    private IEnumerable<PlantedError> Places() =>
        from bar in song.Bars
        from claim in bar.Tune
        from start in SongParts.Moved(bar, claim, bar.Tune).OrderBy(_ => chance.Next()).Take(1)
        select new PlantedError("tune an eighth off", [ClaimKind.TuneNote], SongParts.At(bar, start))
        {
            Song = song.With(bar.Number, b => b with { Tune = b.Tune.With(claim, claim with { Start = start, Length = SongParts.Eighth(bar) }) }),
        };
}
