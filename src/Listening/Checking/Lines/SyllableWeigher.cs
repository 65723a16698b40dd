using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking.Lines;

/// <summary>Weighs where syllables are said to start against where the voice starts, where a voice was made out.</summary>
internal sealed class SyllableWeigher
{
    private readonly WeigherModel model = WeigherModel.Of("Syllable");
    private readonly SyllableFeatures features;
    private readonly SongClock clock;

    private SyllableWeigher(Song song, SongClock clock, Hearing hearing, HeardLine voice)
    {
        this.clock = clock;
        features = new(new(hearing.Evidence.Lines, hearing.Evidence.Notes.Hop.Value, LineStarts.Voice), [.. voice.Notes.Select(n => n.Onset.Value).Order()],
            [.. song.Bars.SelectMany(b => b.Sung.Select(s => clock.TimeOf(b.Number, s.Start).Value)).Order()]);
    }

    /// <summary>Null where nothing is sung, or no voice was made out.</summary>
    public static SyllableWeigher? Of(Song song, SongClock clock, Hearing hearing) =>
        song.Bars.Any(b => !b.Sung.IsEmpty) && hearing.Lines.Of(LineKind.Voice) is { } voice ? new(song, clock, hearing, voice) : null;

    public IEnumerable<Finding> Weigh(Bar bar) => bar.Sung.Select(s => Weigh(bar, s));

    private Finding Weigh(Bar bar, Claim<string> syllable)
    {
        var (onset, eighth) = (clock.TimeOf(bar.Number, syllable.Start), Eighths.In(bar, clock));
        var logOdds = model.LogOdds(features.Of(onset.Value, eighth));
        var rival = features.Rival(onset.Value, eighth);
        var moved = Eighths.Moved(rival.Time - onset.Value, eighth);
        var found = Finding.Weighed(ClaimKind.Syllable, logOdds, new(onset, bar.Number, syllable.Start.Value + 1), $"\"{syllable.Value}\" starts here",
            rival.LogOdds > -1 ? $"the voice starts {moved}" : "the voice isn't heard to start then");
        return found with { Rival = new(rival.LogOdds > -1 ? moved : "_", -logOdds) };
    }
}
