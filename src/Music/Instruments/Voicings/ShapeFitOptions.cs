using System.Collections.Immutable;

namespace Harkbook.Music.Instruments.Voicings;

/// <summary>How a shape is fitted to pitches that were heard.</summary>
public sealed record ShapeFitOptions
{
    public static ShapeFitOptions Usual { get; } = new();

    /// <summary>
    /// Frets, span, hand, muted strings and fewest strings to look among; its rules about chords aren't used. Unlike a chord
    /// search it allows two muted inner strings and shapes of one string.
    /// </summary>
    public VoicingOptions Playing { get; init; } = new() { MaxMutedInner = 2, MinStrings = 1 };

    /// <summary>MIDI numbers that a shape must sound; others it should.</summary>
    public ImmutableArray<int> MustSound { get; init; } = [];

    /// <summary>Weaker pitches are taken for noise; 0 to 1.</summary>
    public double WeakestHeard { get; init; } = 0.1;

    /// <summary>
    /// A string may sound a pitch that was not heard when its note name was heard this strongly in another octave: listening
    /// loses octaves. 0 to 1; above 1 allows none.
    /// </summary>
    public double UnheardOctaveFrom { get; init; } = 0.3;

    /// <summary>What a pitch that was not heard takes from the score, an octave, twelfth or double octave above one that sounds.</summary>
    public double MaskedCost { get; init; } = 0.04;

    /// <summary>What any other pitch that was not heard takes.</summary>
    public double UnheardCost { get; init; } = 0.1;

    /// <summary>What a unit of a <see cref="VoicingCost"/>'s hand costs takes: decides between shapes that sound alike.</summary>
    public double EaseWeight { get; init; } = 0.02;

    /// <summary>How many shapes to return; 1 upward.</summary>
    public int Results { get; init; } = 8;
}
