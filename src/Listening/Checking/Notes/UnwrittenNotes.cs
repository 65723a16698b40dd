using System.Collections.Immutable;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>
/// Weighs the claim that nothing more starts than what is written, where a part claims to be complete: against each heard note that nothing written
/// explains, unless that is hardly a note left out.
/// </summary>
internal sealed class UnwrittenNotes
{
    /// <summary>From these log-odds on what is heard and isn't written is hardly something left out, and nothing is told.</summary>
    public const double Hardly = 2;

    private readonly WeigherModel model = WeigherModel.Of("Silence");
    private readonly ImmutableArray<HeardNote> unwritten;
    private readonly UnwrittenFeatures features;

    /// <param name="complete">Stretches in which the part claims to be complete, in seconds.</param>
    /// <param name="isOthers">Whether a note belongs to somebody whose notes aren't written.</param>
    public UnwrittenNotes(HeardStarts starts, WrittenNotes written, Hearing hearing, IEnumerable<(double From, double To)> complete,
        Func<HeardNote, bool>? isOthers = null)
    {
        var stretches = complete.ToArray();
        unwritten = [.. stretches.SelectMany(s => In(hearing, written, s.From, s.To)).Where(n => isOthers?.Invoke(n) != true)];
        features = new(starts, written, unwritten, Math.Max(1, stretches.Sum(s => s.To - s.From)) / 60);
    }

    /// <summary>Heard notes that nothing written explains by its pitch and time.</summary>
    public static IEnumerable<HeardNote> In(Hearing hearing, WrittenNotes written, double from, double to) =>
        hearing.Notes.Where(n => n.Onset.Value >= from && n.Onset.Value < to && !written.Has(n.Midi, n.Onset.Value, UnwrittenFeatures.Same));

    /// <param name="from">In seconds.</param>
    /// <param name="to">In seconds.</param>
    /// <param name="centre">Where note names lie on the line of fifths, as a key gives it.</param>
    public IEnumerable<Finding> Between(double from, double to, int centre, Func<Seconds, Place> place)
    {
        foreach (var note in unwritten.Where(n => n.Onset.Value >= from && n.Onset.Value < to))
        {
            var logOdds = model.LogOdds(features.Of(note));
            var pitch = Pitch.FromMidi(note.Midi, centre).ToString();
            if (logOdds < Hardly)
                yield return Finding.Weighed(ClaimKind.Silence, logOdds, place(note.Onset), "nothing more starts here",
                    $"{pitch} starts here and isn't written") with { Rival = new(pitch, -logOdds) };
        }
    }
}
