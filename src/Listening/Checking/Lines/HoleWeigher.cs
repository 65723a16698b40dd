using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking.Lines;

/// <summary>Weighs the holes and breaths of a harmonica against what else it has.</summary>
internal sealed class HoleWeigher
{
    private readonly WeigherModel model = WeigherModel.Of("Hole");
    private readonly HoleFeatures features;
    private readonly Harmonica harp;
    private readonly SongClock clock;

    public HoleWeigher(HeardStarts starts, Hearing hearing, Harmonica harp, SongClock clock)
    {
        (this.harp, this.clock) = (harp, clock);
        features = new(starts, new(hearing.Evidence.Lines, hearing.Evidence.Notes.Hop.Value, LineStarts.Reed), harp);
    }

    public IEnumerable<Finding> Weigh(Bar bar) => bar.Harp.Where(h => harp.Has(h.Value)).Select(h => Weigh(bar, h));

    private Finding Weigh(Bar bar, Claim<HarpNote> blown)
    {
        var onset = clock.TimeOf(bar.Number, blown.Start);
        var together = bar.Harp.Where(h => h.Start == blown.Start && harp.Has(h.Value)).Select(h => harp.PitchOf(h.Value).Midi);
        var claim = new HoleClaim(blown.Value, onset.Value, clock.TimeOf(bar.Number, blown.Start + blown.Length).Value, [.. together]);
        var logOdds = model.LogOdds(features.Of(claim));
        var rival = features.Rival(claim);
        var isHeard = rival.Sounds > 0 || rival.Starts > 0;
        var heard = isHeard ? $"{harp.PitchOf(rival.Note)} sounds then, {rival.Note} on this harp" : "no reed is heard to sound then";
        var place = new Place(onset, bar.Number, blown.Start.Value + 1);
        return Finding.Weighed(ClaimKind.Hole, logOdds, place, $"harmonica {blown.Value}, {harp.PitchOf(blown.Value)}", heard)
            with { Rival = new(isHeard ? rival.Note.ToString() : "_", -logOdds) };
    }
}
