using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>Tunings that no catalogue names: a known one with one string elsewhere.</summary>
internal static class FreeTunings
{
    private const int Farthest = 5, LowestString = 33;

    /// <summary>Every way to move one string of a guitar by up to five semitones that keeps the strings rising and the open strings new.</summary>
    /// <param name="centre">A key's place on the line of fifths, for spelling.</param>
    public static IEnumerable<Guitar> Near(Guitar guitar, int centre)
    {
        var strings = guitar.Named.Tuning.Strings;
        for (var s = 0; s < strings.Length; s++)
        {
            for (var by = -Farthest; by <= Farthest; by++)
            {
                var midi = strings[s].Midi + by;
                if (by == 0 || midi < LowestString || (s > 0 && midi < strings[s - 1].Midi) || (s + 1 < strings.Length && midi > strings[s + 1].Midi))
                    continue;
                var tuning = Tuning.Of(strings.SetItem(s, Pitch.FromMidi(midi, centre)));
                if (TuningCatalogue.NameOf(tuning) is null)
                    yield return new(guitar.Named with { Name = tuning.ToString(), Tuning = tuning }, guitar.Capo,
                        new(guitar.Named.Name, tuning.StringNumber(s), by));
            }
        }
    }
}

/// <summary>How a tuning differs from a known one.</summary>
/// <param name="StringNumber">As players count: 1 is the high side.</param>
internal sealed record MovedString(string From, int StringNumber, int Semitones)
{
    public override string ToString() =>
        $"not in the catalogue: {From} with string {StringNumber} {Math.Abs(Semitones)} {(Math.Abs(Semitones) == 1 ? "semitone" : "semitones")} "
            + $"{(Semitones > 0 ? "up" : "down")}";
}
