using Harkbook.Listening.Checking.Strokes;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>Weighs whether notes are picked or come by the fretting hand alone, where they could be either.</summary>
internal sealed class AttackWeigher(Song song, SongClock clock, HeardStarts starts, StrikeCurve curve)
{
    private readonly WeigherModel model = WeigherModel.Of("Attack");
    private readonly AttackFeatures features = new(song, clock, starts, curve);

    public IEnumerable<Finding> Weigh(Bar bar) => AttackFeatures.Asked(bar).Select(asked => Weigh(bar, asked.Note, asked.Last));

    private Finding Weigh(Bar bar, Claim<PickedNote> note, Claim<PickedNote> last)
    {
        var joined = AttackFeatures.IsJoined(note.Value);
        var logOdds = model.LogOdds(features.Of(bar, note, last, joined));
        var other = joined ? "" : note.Value.Fret > last.Value.Fret ? "h" : "p";
        var place = new Place(clock.TimeOf(bar.Number, note.Start), bar.Number, note.Start.Value + 1);
        var heard = joined ? "it starts as clearly as a picked note" : "it starts as softly as one that isn't picked";
        return Finding.Weighed(ClaimKind.Attack, logOdds, place, Words(note.Value.Attack), heard) with { Rival = new($"{other}{note.Value.Fret}", -logOdds) };
    }

    private static string Words(Attack attack) => attack switch
    {
        Attack.HammeredOn => "a note hammered on",
        Attack.PulledOff => "a note pulled off",
        Attack.Slid => "a note slid to",
        _ => "a picked note",
    };
}
