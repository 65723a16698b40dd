using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.Music.Analysis;

/// <summary>A harmonica's notes as players say them.</summary>
public static class BreathWords
{
    public static string Of(HarpNote note) => note.Technique switch
    {
        HarpTechnique.Plain => Plain(note),
        HarpTechnique.Bent => $"{Plain(note)} bent {(note.Bend == -1 ? "a semitone" : NumberWords.Of(-note.Bend, "semitone"))}",
        _ => $"{Plain(note)} over-bent",
    };

    private static string Plain(HarpNote note) => $"{(note.Breath == Breath.Blow ? "blow" : "draw")} {note.Hole}";
}
