using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>
/// Weighs the claim that nothing more starts than what is written, where a part claims to be complete: against each heard note that nothing written
/// explains, and that is likelier a note left out than not.
/// </summary>
internal sealed class UnwrittenNotes(HeardStarts starts, WrittenNotes written, Hearing hearing)
{
    private readonly WeigherModel model = WeigherModel.Of("Silence");
    private readonly UnwrittenFeatures features = new(starts, written, hearing);

    /// <param name="from">In seconds.</param>
    /// <param name="to">In seconds.</param>
    /// <param name="centre">Where note names lie on the line of fifths, as a key gives it.</param>
    public IEnumerable<Finding> Between(double from, double to, int centre, Func<Seconds, Place> place)
    {
        foreach (var note in features.Unwritten(from, to))
        {
            var logOdds = model.LogOdds(features.Of(note));
            var pitch = Pitch.FromMidi(note.Midi, centre).ToString();
            if (logOdds < 0)
                yield return Finding.Weighed(ClaimKind.Silence, logOdds, place(note.Onset), "nothing more starts here",
                    $"{pitch} starts here and isn't written") with { Rival = new(pitch, -logOdds) };
        }
    }
}
