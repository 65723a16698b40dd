using Harkbook.Listening.Checking.Weighing;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>
/// What a claimed note is written among, and how well the claims most like it are heard: where a part is masked or weak, its right notes are often unheard,
/// so one more of them says little; where its neighbours are all heard, one that isn't says much.
/// </summary>
internal sealed class NoteNeighbours
{
    private const double Together = 0.06, Held = 0.05, Restruck = 0.06;

    /// <summary>How far claims are alike: semitones and seconds over which they are e times less so; further than these aren't looked at.</summary>
    private const double AlikePitch = 1.5, AlikeTime = 10, SameTime = 20;

    private const int FarthestPitch = 6;
    private const double FarthestTime = 60;

    /// <summary>How many claims the mean of all others stands for, where few are alike.</summary>
    private const double OfAll = 1.5;

    /// <summary>How surely right notes start where nothing is known of others, and for how many of these that stands.</summary>
    private const double Typical = 1.5, OfTypical = 3;

    /// <summary>From these log-odds on a start counts as heard.</summary>
    private const double IsHeard = -1.5;

    private readonly WrittenNotes written;
    private readonly double[] heard;
    private readonly double sum;

    public NoteNeighbours(HeardStarts starts, WrittenNotes written)
    {
        this.written = written;
        heard = [.. written.Notes.ToArray().Select(n => starts.At(n.Midi, n.Onset))];
        sum = heard.Sum();
    }

    /// <param name="own">How surely it starts itself.</param>
    public IEnumerable<Feature> Of(NoteClaim claim, double own)
    {
        var (same, alike) = Usual(claim, (sum - own + OfTypical * Typical) / (heard.Length - 1 + OfTypical));
        var (unison, sounding, restruck) = Around(claim);
        return
        [
            new("same start", same * own), new("alike", alike), new("unison", unison), new("sounding", Math.Log(1 + sounding)), new("restruck", restruck),
        ];
    }

    /// <summary>How surely other claims of its pitch start, on the mean; and how often claims like it are heard at all, as log-odds.</summary>
    /// <param name="mean">Of all other claims.</param>
    private (double Same, double Alike) Usual(NoteClaim claim, double mean)
    {
        var (same, sames, alike, alikes) = (OfAll * mean, OfAll, 1.0, OfAll);
        var (first, last) = Near(claim.Onset, FarthestTime, FarthestTime);
        for (var i = first; i < last; i++)
        {
            var (by, off) = (Math.Abs(written.Notes[i].Midi - claim.Midi), Math.Abs(written.Notes[i].Onset - claim.Onset));
            if (by > FarthestPitch || (by == 0 && off < 1e-6))
                continue;
            var like = Math.Exp(-by / AlikePitch - off / AlikeTime);
            (alike, alikes) = (alike + (heard[i] > IsHeard ? like : 0), alikes + like);
            if (by == 0)
                (same, sames) = (same + Math.Exp(-off / SameTime) * heard[i], sames + Math.Exp(-off / SameTime));
        }
        return (same / sames, LogOdds.Of(alike / alikes, 0.01));
    }

    /// <summary>
    /// How many others start with it at its pitch, how many sound on when it starts, and whether its own pitch does, so that it is struck again.
    /// </summary>
    private (int Unison, int Sounding, int Restruck) Around(NoteClaim claim)
    {
        var (unison, sounding, restruck) = (-1, 0, 0);
        var (first, last) = Near(claim.Onset, FarthestTime, Together);
        for (var i = first; i < last; i++)
        {
            var note = written.Notes[i];
            var isBefore = note.Onset < claim.Onset - Together;
            unison += !isBefore && note.Midi == claim.Midi ? 1 : 0;
            sounding += isBefore && note.End > claim.Onset + Held ? 1 : 0;
            restruck |= isBefore && note.Midi == claim.Midi && note.End > claim.Onset - Restruck ? 1 : 0;
        }
        return (Math.Max(0, unison), sounding, restruck);
    }

    private (int First, int Last) Near(double time, double before, double after)
    {
        var range = written.Between(time - before, time + after);
        return (range.Start.Value, range.End.Value);
    }
}
