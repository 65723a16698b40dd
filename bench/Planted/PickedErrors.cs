using Harkbook.Listening.Checking;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Bench.Planted;

/// <summary>Errors in picked notes.</summary>
internal sealed class PickedErrors(Song song, SongClock clock, Random chance)
{
    private static readonly ClaimKind[] aNote = [ClaimKind.Note, ClaimKind.PlaceOnNeck];

    private readonly Fretboard neck = new(song.Tuning.Value, song.Capo.Value);

    public IEnumerable<PlantedError> All() => Each().SelectMany(p => OffFrets(p.Bar, p.Claim).Concat(OtherStrings(p.Bar, p.Claim))
        .Concat(Elsewhere(p.Bar, p.Claim)).Append(Missing(p.Bar, p.Claim)).Concat(OtherAttacks(p.Bar, p.Claim)))
        .Concat(song.Bars.Where(b => !b.Picked.IsEmpty).SelectMany(TooMany));

    private IEnumerable<(Bar Bar, Claim<PickedNote> Claim)> Each() =>
        from bar in song.Bars
        from claim in bar.Picked
        where !claim.Value.IsMuted && claim.Value.TouchedAt is null && claim.Value.Bend.IsNone
        select (bar, claim);

    private PlantedError Put(string kind, ClaimKind[] by, Bar bar, Claim<PickedNote> old, Claim<PickedNote>? put, Func<Finding, bool> isAt,
        params string[] truth) =>
        new(kind, by, isAt) { Song = song.With(bar.Number, b => b with { Picked = b.Picked.With(old, put) }), Truth = truth };

    private string Named(PickedNote note) => Pitch.FromMidi(neck.MidiAt(note.StringIndex, note.Fret), song.Key.Value.Centre).ToString();

    private IEnumerable<PlantedError> OffFrets(Bar bar, Claim<PickedNote> claim)
    {
        var frets = new[] { -2, -1, 1, 2 }.Select(d => claim.Value.Fret + d).Where(f => f >= 0).ToArray();
        var put = claim with { Value = claim.Value with { Fret = frets[chance.Next(frets.Length)], Attack = Attack.Picked } };
        yield return Put("picked note a fret or two off", aNote, bar, claim, put, SongParts.At(bar, claim.Start), Named(claim.Value),
            $"fret {claim.Value.Fret}");
    }

    private IEnumerable<PlantedError> OtherStrings(Bar bar, Claim<PickedNote> claim)
    {
        var busy = bar.Picked.Where(p => p.Start == claim.Start).Select(p => p.Value.StringIndex).ToHashSet();
        var places = neck.PlacesOf(neck.MidiAt(claim.Value.StringIndex, claim.Value.Fret)).Where(p => !busy.Contains(p.StringIndex) && p.Fret <= 12).ToArray();
        if (places.Length == 0 || claim.Value.Attack != Attack.Picked)
            yield break;
        var place = places[chance.Next(places.Length)];
        yield return Put("picked note on another string", aNote, bar, claim,
            claim with { Value = claim.Value.MovedTo(place.StringIndex, place.Fret) }, SongParts.At(bar, claim.Start),
            $"string {song.Tuning.Value.StringNumber(claim.Value.StringIndex)}",
                $"{song.Tuning.Value.StringNumber(claim.Value.StringIndex)}/{claim.Value.Fret}");
    }

    private IEnumerable<PlantedError> Elsewhere(Bar bar, Claim<PickedNote> claim)
    {
        var same = bar.Picked.Where(p => p.Value.StringIndex == claim.Value.StringIndex && p != claim);
        foreach (var start in SongParts.Moved(bar, claim, same).OrderBy(_ => chance.Next()).Take(1))
            yield return Put("picked note an eighth off", [.. aNote, ClaimKind.Silence], bar, claim,
                claim with { Start = start, Length = SongParts.Eighth(bar) },
                SongParts.Either(SongParts.At(bar, start), clock.TimeOf(bar.Number, claim.Start)));
    }

    private PlantedError Missing(Bar bar, Claim<PickedNote> claim) =>
        Put("picked note missing", [ClaimKind.Silence], bar, claim, null, SongParts.About(clock.TimeOf(bar.Number, claim.Start)), Named(claim.Value));

    /// <summary>Where another fret of the string sounded at most a beat before, so that both can be.</summary>
    private IEnumerable<PlantedError> OtherAttacks(Bar bar, Claim<PickedNote> claim)
    {
        var before = bar.Picked.Where(p => p.Value.StringIndex == claim.Value.StringIndex && p.Start < claim.Start).MaxBy(p => p.Start);
        if (before is null || before.Value.Fret == claim.Value.Fret || (claim.Start - before.Start).Value > 1)
            yield break;
        var attack = claim.Value.Attack != Attack.Picked ? Attack.Picked : before.Value.Fret > claim.Value.Fret ? Attack.PulledOff : Attack.HammeredOn;
        yield return Put("picked for hammered or pulled, or the other way", [ClaimKind.Attack], bar, claim,
            claim with { Value = claim.Value with { Attack = attack } }, SongParts.At(bar, claim.Start));
    }

    private IEnumerable<PlantedError> TooMany(Bar bar)
    {
        var free = SongParts.Eighths(bar).Where(at => bar.Picked.All(p => p.Start != at)).ToArray();
        if (free.Length == 0 || bar.Chords.LastOrDefault(c => c.Start <= free[0])?.Value.Shape is not { } shape)
            yield break;
        var strings = Enumerable.Range(0, shape.Frets.Length).Where(s => shape.Frets[s] is not null).ToArray();
        var put = new Claim<PickedNote>(free[chance.Next(free.Length)], SongParts.Eighth(bar), new(strings[chance.Next(strings.Length)], 0), Standing.Decided);
        put = put with { Value = put.Value with { Fret = shape.Frets[put.Value.StringIndex]!.Value } };
        yield return Put("picked note too many", aNote, bar, put, put, SongParts.At(bar, put.Start));
    }
}
