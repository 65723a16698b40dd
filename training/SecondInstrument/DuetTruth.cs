using System.Collections.Immutable;
using Harkbook.Listening;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>What a made-up piece would be annotated as.</summary>
internal static class DuetTruth
{
    private const double Hop = 0.01;

    public static SecondInstrumentKind KindOf(Duet duet) => Enum.Parse<SecondInstrumentKind>(duet.Kind, ignoreCase: true);

    public static Annotation Of(Duet duet) => new()
    {
        SecondInstrument = KindOf(duet),
        Melody = duet.Kind == "none" ? [] : Melody(duet),
        LineNotes = [.. duet.Line.OrderBy(n => n.Onset).Select(n => new AnnotatedLineNote(new(n.Onset, n.End, n.Midi), n.Hole))],
        HarpKey = duet.Harp,
    };

    /// <summary>The keys that a listener would have: the right one likeliest.</summary>
    public static ImmutableArray<HeardKey> Keys(Duet duet) =>
        [new(default, duet.Sound.Duration, new(
            new(new(duet.Tonic, duet.Minor ? Mode.Minor : Mode.Major), 0.7),
            new(new(PitchName.FromPitchClass((duet.Tonic.PitchClass + 7) % 12), Mode.Major), 0.15),
            new(new(PitchName.FromPitchClass((duet.Tonic.PitchClass + 5) % 12), Mode.Major), 0.15)))];

    private static ImmutableArray<AnnotatedPitch> Melody(Duet duet)
    {
        var pitches = new AnnotatedPitch[(int)(duet.Sound.Duration.Value / Hop)];
        for (var f = 0; f < pitches.Length; f++)
        {
            var time = f * Hop;
            var note = duet.Line.LastOrDefault(n => n.Voice == 0 && n.Onset <= time && n.End > time);
            pitches[f] = new(time, note is null ? null : 440 * Math.Pow(2, (note.Midi - 69 + note.Scoop / 100 * Math.Exp(-(time - note.Onset) / 0.035)) / 12));
        }
        return [.. pitches];
    }
}
