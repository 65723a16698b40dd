using Harkbook.Listening.Interchange;

namespace Harkbook.Listening.Evaluation;

/// <summary>Whether notes are put on the strings and frets on which they were played.</summary>
public static class StringScores
{
    /// <summary>
    /// Counts the notes found (onset within 50 ms, pitch within 50 cents, one to one) whose string is known, and those among them that are on
    /// that string and, since tuning and capo say where it sounds open, at that fret.
    /// </summary>
    public static (int Right, int Found) Count(
        IReadOnlyList<ScoredNote> reference, HeardTuning trueGuitar, IReadOnlyList<ScoredNote> estimated, HeardTuning heardGuitar)
    {
        var match = NoteScores.Match(reference, estimated);
        var found = Enumerable.Range(0, reference.Count).Where(i => match[i] >= 0 && reference[i].StringIndex is not null).ToArray();
        return (found.Count(i => SamePlace(reference[i].StringIndex!.Value, estimated[match[i]].StringIndex)), found.Length);

        bool SamePlace(int truly, int? heard) => truly == heard && Open(trueGuitar, truly) == Open(heardGuitar, truly);
    }

    /// <summary>The pitch and the capo's fret say at which fret a note lies; null on a string that the guitar hasn't got.</summary>
    private static (int Midi, int Capo)? Open(HeardTuning guitar, int stringIndex) => stringIndex >= guitar.Tuning.Count ? null
        : (guitar.Tuning.Strings[stringIndex].Midi + guitar.Capo.Raises(stringIndex), guitar.Capo.Raises(stringIndex));
}
