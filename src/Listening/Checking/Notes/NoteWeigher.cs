using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>How a claimed note is told.</summary>
/// <param name="Centre">Where note names lie on the line of fifths, as a key gives it.</param>
/// <param name="Reading">What stands in the note's place when it lies so many semitones higher, as the claims are written; null where nothing can.</param>
/// <param name="Nothing">What stands there when nothing starts.</param>
/// <param name="Eighth">How long an eighth is there, in seconds; null where that isn't known.</param>
internal sealed record NoteWords(string Claim, int Centre, Func<int, string?> Reading, string Nothing, double? Eighth);

/// <summary>Weighs claimed notes against another pitch in their place, another time for them, and nothing at all.</summary>
internal sealed class NoteWeigher(HeardStarts starts, WrittenNotes written)
{
    private const int Farthest = 12;

    /// <summary>How much less likely each semitone makes it that another pitch was meant (nepers): of two that start, the nearer is told.</summary>
    private const double AwayFrom = 0.15;

    private readonly WeigherModel model = WeigherModel.Of("Note"), beyond = WeigherModel.Of("NoteBeyond");
    private readonly NoteClaimFeatures features = new(starts, written);
    private readonly BeyondFeatures beyonds = new(starts, written);

    public Finding Weigh(NoteClaim claim, NoteWords words, Place where)
    {
        if (!starts.Holds(claim.Midi))
            return Beyond(claim, words, where);
        var logOdds = model.LogOdds(features.Of(claim));
        var (heard, reading) = Instead(claim, words);
        return Finding.Weighed(ClaimKind.Note, logOdds, where, words.Claim, heard) with { Rival = new(reading, -logOdds) };
    }

    private Finding Beyond(NoteClaim claim, NoteWords words, Place where)
    {
        var logOdds = beyond.LogOdds(beyonds.Of(claim));
        var (found, by) = beyonds.Nearer(claim.Midi, claim.Onset);
        return Finding.Weighed(ClaimKind.Note, logOdds, where, words.Claim, found > 0 ? Starts(claim, by, words) : "so far out nothing is listened for")
            with { Rival = new(found > 0 ? words.Reading(by) ?? words.Nothing : words.Nothing, -logOdds) };
    }

    private static string Starts(NoteClaim claim, int by, NoteWords words) => $"{Pitch.FromMidi(claim.Midi + by, words.Centre)} starts then";

    private (string Heard, string Reading) Instead(NoteClaim claim, NoteWords words)
    {
        var (pitch, by) = Other(claim, words);
        var (moved, time) = features.Times(claim);
        if (pitch > 0 && pitch >= moved)
            return (Starts(claim, by, words), words.Reading(by)!);
        if (moved > 0)
            return ($"it starts {Eighths.Moved(time - claim.Onset, words.Eighth)}", Eighths.Moved(time - claim.Onset, words.Eighth));
        return features.Own(claim).LogOdds > 0 ? ("it may be the overtone of another", words.Nothing) : ("it isn't heard to start then", words.Nothing);
    }

    private (double LogOdds, int By) Other(NoteClaim claim, NoteWords words)
    {
        var best = (LogOdds: 0.0, By: 0, Score: double.NegativeInfinity);
        for (var by = -Farthest; by <= Farthest; by++)
        {
            if (by == 0 || words.Reading(by) is null || features.IsExplained(claim.Midi + by, claim))
                continue;
            var found = starts.At(claim.Midi + by, claim.Onset);
            if (found - AwayFrom * Math.Abs(by) > best.Score)
                best = (found, by, found - AwayFrom * Math.Abs(by));
        }
        return (best.LogOdds, best.By);
    }
}
