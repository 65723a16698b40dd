using System.Collections.Immutable;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Publishing.Engraving.Diagrams;

/// <summary>What a chord diagram shows: a shape on the strings of a tuning, under a capo.</summary>
/// <param name="Name">The chord symbol that sounds, with its label behind "@" where it has one.</param>
/// <param name="Centre">The place on the line of fifths near which sounding notes are spelled (a key's Centre).</param>
/// <param name="Names">Under a capo, the name's other side; null where it has only one.</param>
public sealed record ChordDiagramSubject(Shape Shape, string Name, Tuning Tuning, Capo Capo, Standing Standing, int Centre = 2, CapoNames? Names = null)
{
    /// <summary>A song's chord with its shape.</summary>
    public static ChordDiagramSubject Of(Song song, Shape shape, string name, Standing standing) =>
        new(shape, name, song.Tuning.Value, song.Capo.Value, standing, song.Key.Value.Centre, CapoNames.Of(song))
        {
            FingersHeard = song.Shapes.Any(s => s.Name == name && s.Standing.Kind is StandingKind.Heard or StandingKind.Assumed),
        };

    /// <summary>The name to set large.</summary>
    internal string FirstName => Names?.First(Name) ?? Name;

    /// <summary>The name below it, in words; empty where there is none.</summary>
    internal string SecondName => Names?.SecondInWords(Name) ?? "";

    /// <summary>The fingers that the shape gives were heard with it, whatever the name's standing.</summary>
    public bool FingersHeard { get; init; }

    /// <summary>Nobody has decided the fingers: the shape gives none, or was heard.</summary>
    internal bool FingersGuessed => FingersHeard || Shape.Fingers.IsEmpty || Standing.Kind == StandingKind.Heard;

    /// <summary>This subject with the easiest fingering where its shape gives none and a hand can play it.</summary>
    internal ChordDiagramSubject Fingered() =>
        Shape.Fingers.IsEmpty && FingeringSolver.Solve(Shape, Capo, Hand.On(Tuning)) is { IsPlayable: true, Fingering: { } easiest }
            ? this with { Shape = Shape.WithFingers(easiest.Fingers), FingersHeard = true }
            : this;

    /// <summary>What each string sounds, null where muted, called as the name above calls it; notes of the named chord take its spelling.</summary>
    internal ImmutableArray<PitchName?> NoteNames()
    {
        var toName = Names is { HandFirst: true } ? -Names.Raise : default;
        ImmutableArray<PitchName> spelled = ChordSymbol.TryRead(NamedShape.SymbolOf(Name), out var chord) ? chord.Notes.Add(chord.Bass) : [];
        return [.. Shape.PitchOfEachString(Tuning, Capo, Centre).Select(p => p is { } pitch ? Respelled(pitch.Name, spelled) + toName : (PitchName?)null)];
    }

    private static PitchName Respelled(PitchName name, ImmutableArray<PitchName> spelled)
    {
        foreach (var candidate in spelled)
        {
            if (candidate.PitchClass == name.PitchClass)
                return candidate;
        }
        return name;
    }
}
