using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Bench.Planted;

/// <summary>Strokes moved, missing, too many, turned.</summary>
internal sealed class StrokeErrors(Song song, SongClock clock, Random chance)
{
    private static readonly ClaimKind[] stroke = [ClaimKind.Stroke];
    private static readonly ClaimKind[] strokeOrNone = [ClaimKind.Stroke, ClaimKind.StillHand];

    public IEnumerable<PlantedError> All() =>
        song.Bars.Where(b => !b.Strums.IsEmpty).SelectMany(b => b.Strums.Where(s => s.Value != Stroke.Muted).SelectMany(s => Of(b, s)).Concat(TooMany(b)));

    private PlantedError Put(string kind, ClaimKind[] by, Bar bar, Claim<Stroke> old, Claim<Stroke>? put, Func<Finding, bool> isAt, params string[] truth) =>
        new(kind, by, isAt) { Song = song.With(bar.Number, b => b with { Strums = b.Strums.With(old, put) }), Truth = truth };

    private IEnumerable<PlantedError> Of(Bar bar, Claim<Stroke> claim)
    {
        var time = clock.TimeOf(bar.Number, claim.Start);
        foreach (var start in SongParts.Moved(bar, claim, bar.Strums).OrderBy(_ => chance.Next()).Take(1))
            yield return Put("stroke an eighth off", strokeOrNone, bar, claim, claim with { Start = start, Length = SongParts.Eighth(bar) },
                SongParts.Either(SongParts.At(bar, start), time));
        yield return Put("stroke missing", [ClaimKind.StillHand], bar, claim, null, SongParts.About(time), claim.Value == Stroke.Down ? "d" : "u",
            claim.Value == Stroke.Down ? "down" : "up");
        var turned = claim.Value == Stroke.Down ? Stroke.Up : Stroke.Down;
        yield return Put("stroke down for up, or up for down", stroke, bar, claim, claim with { Value = turned }, SongParts.At(bar, claim.Start),
            claim.Value == Stroke.Down ? "d" : "u", claim.Value == Stroke.Down ? "down" : "up");
    }

    private IEnumerable<PlantedError> TooMany(Bar bar)
    {
        foreach (var at in SongParts.Eighths(bar).Where(at => bar.Strums.All(s => s.Start != at)).OrderBy(_ => chance.Next()).Take(1))
        {
            var put = new Claim<Stroke>(at, SongParts.Eighth(bar), at.Denominator == 1 ? Stroke.Down : Stroke.Up, Standing.Decided);
            yield return Put("stroke too many", stroke, bar, put, put, SongParts.At(bar, at));
        }
    }
}
