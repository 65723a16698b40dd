using System.Collections.Immutable;
using Harkbook.Listening;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Theory;

namespace Harkbook.Training.SecondInstrument;

/// <summary>What a made-up piece would be annotated as.</summary>
internal static class PieceTruth
{
    private const double Hop = 0.01;

    public static Annotation Of(Piece piece) => new() { Lines = [.. piece.Parts.Select(p => LineOf(p, piece.Sound.Duration.Value))] };

    /// <summary>The keys that a listener would have: the right one likeliest.</summary>
    public static ImmutableArray<HeardKey> Keys(Piece piece) =>
        [new(default, piece.Sound.Duration, new(
            new(new(piece.Tonic, piece.Minor ? Mode.Minor : Mode.Major), 0.7),
            new(new(PitchName.FromPitchClass((piece.Tonic.PitchClass + 7) % 12), Mode.Major), 0.15),
            new(new(PitchName.FromPitchClass((piece.Tonic.PitchClass + 5) % 12), Mode.Major), 0.15)))];

    private static AnnotatedLine LineOf(Part part, double length) => new(
        part.Kind, Melody(part.Notes, length), [.. part.Notes.OrderBy(n => n.Onset).Select(n => new AnnotatedLineNote(new(n.Onset, n.End, n.Midi), n.Hole))], part.Harp);

    private static ImmutableArray<AnnotatedPitch> Melody(List<LineNote> notes, double length)
    {
        var pitches = new AnnotatedPitch[(int)(length / Hop)];
        for (var f = 0; f < pitches.Length; f++)
        {
            var time = f * Hop;
            var note = notes.LastOrDefault(n => n.Voice == 0 && n.Onset <= time && n.End > time);
            pitches[f] = new(time, note is null ? null : 440 * Math.Pow(2, (note.Midi - 69 + note.Scoop / 100 * Math.Exp(-(time - note.Onset) / 0.035)) / 12));
        }
        return [.. pitches];
    }
}
