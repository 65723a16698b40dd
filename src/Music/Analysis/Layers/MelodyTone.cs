using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>A melody's note and what it is over its chord.</summary>
public sealed record MelodyTone(MelodyNote Note, ToneKind Kind)
{
    private const int Step = 2;
    private static readonly Beats LongestRest = Beats.Whole(1);

    /// <summary>Whether it is heard as a stress: on a beat, and as long as one.</summary>
    public bool IsLeaning => Kind is not (ToneKind.ChordTone or ToneKind.Passing or ToneKind.Neighbour)
        && Note.Place.Start.Denominator == 1 && Note.Place.Length >= Beats.Whole(1);

    /// <summary>Tells every note of a line by what comes before and after; a rest of more than a beat parts phrases.</summary>
    public static ImmutableArray<MelodyTone> Of(IReadOnlyList<MelodyNote> line) =>
        [.. line.Select((note, i) => new MelodyTone(note,
            KindOf(i > 0 ? Joined(line[i - 1], note) : null, note, i + 1 < line.Count ? Joined(note, line[i + 1], of: line[i + 1]) : null)))];

    private static MelodyNote? Joined(MelodyNote a, MelodyNote b, MelodyNote? of = null) => b.Start - a.End <= LongestRest ? of ?? a : null;

    private static ToneKind KindOf(MelodyNote? before, MelodyNote note, MelodyNote? after)
    {
        if (note.IsChordTone)
            return ToneKind.ChordTone;
        var (into, outOf) = (note.Midi - before?.Midi, after?.Midi - note.Midi);
        return (into, outOf) switch
        {
            (0, 0) when before!.IsChordTone && after!.IsChordTone => ToneKind.Pedal,
            (0, < 0 and >= -Step) when IsPrepared(before!, note) => ToneKind.Suspension,
            (0, > 0 and <= Step) when IsPrepared(before!, note) => ToneKind.Retardation,
            (_, 0) when after!.IsChordTone && after.Chord != note.Chord => ToneKind.Anticipation,
            ({ } a, { } b) when IsStep(a) && IsStep(b) => Math.Sign(a) == Math.Sign(b) ? ToneKind.Passing : a == -b ? ToneKind.Neighbour : Colour(note),
            ({ } a, { } b) when IsStep(a) && Math.Abs(b) > Step && Math.Sign(a) != Math.Sign(b) => ToneKind.Escape,
            (null or > Step or < -Step, { } b) when IsStep(b) => ToneKind.Appoggiatura,
            _ => Colour(note),
        };
    }

    private static bool IsPrepared(MelodyNote before, MelodyNote note) => before.IsChordTone && before.Chord != note.Chord;

    private static bool IsStep(int semitones) => Math.Abs(semitones) is > 0 and <= Step;

    private static ToneKind Colour(MelodyNote note) =>
        UpperStructure.IsColour(note.Chord, note.Note.Pitch.Name.PitchClass) ? ToneKind.Tension : ToneKind.Free;
}
