using System.Collections.Immutable;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>What was heard to start where a claimed note wasn't.</summary>
/// <param name="claimed">All notes that are claimed: what was heard of them isn't heard in place of another.</param>
internal sealed class HeardInstead(ImmutableArray<StartedNote> heard, ImmutableArray<StartedNote> claimed, Seconds window)
{
    /// <summary>
    /// A finding that isn't supported, with the note nearest in pitch that starts then and that no claim speaks for; as it is where none is
    /// heard, or the claimed one is.
    /// </summary>
    /// <param name="centre">Where note names lie on the line of fifths, as a key gives it.</param>
    public Finding Told(Finding finding, int midi, int centre = 2) =>
        finding.Verdict == Verdict.Supported ? finding : finding with { Heard = At(finding.Where!.Time, midi, centre) };

    private string? At(Seconds onset, int midi, int centre)
    {
        var then = Near(heard, onset).ToList();
        var others = then.Where(n => !Near(claimed, n.Onset).Any(c => c.Midi == n.Midi)).ToList();
        return others.Count == 0 || then.Any(n => n.Midi == midi) ? null
            : $"{Pitch.FromMidi(others.MinBy(n => Math.Abs(n.Midi - midi)).Midi, centre)} starts then";
    }

    private IEnumerable<StartedNote> Near(ImmutableArray<StartedNote> notes, Seconds time) =>
        notes.Where(n => Math.Abs((n.Onset - time).Value) <= window.Value);
}

/// <summary>A note by where it starts.</summary>
internal readonly record struct StartedNote(int Midi, Seconds Onset);
