using System.Collections.Immutable;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Music.Instruments.Voicings;

/// <summary>How strictly a shape's lowest note must be the chord's bass.</summary>
public enum BassRule
{
    /// <summary>
    /// Exact on five strings or more in rising order, and preferred where no shape has the bass; preferred on fewer strings,
    /// where players invert chords; free on re-entrant instruments such as the ukulele.
    /// </summary>
    Usual,

    /// <summary>Shapes with another bass are left out.</summary>
    Exact,

    /// <summary>Any note of the chord may be lowest, at a cost.</summary>
    Preferred,

    /// <summary>Any note of the chord may be lowest; another instrument plays the bass.</summary>
    Free,
}

/// <summary>What to look for when a chord is put on strings.</summary>
public sealed record VoicingOptions
{
    public static VoicingOptions Usual { get; } = new();

    /// <summary>The usual search on an instrument's neck in a tuning of it: as many frets, and short strings never pressed.</summary>
    /// <param name="reach">The player's own <see cref="Hand.LongestReach"/>; a usual hand's where nobody said.</param>
    public static VoicingOptions On(FrettedInstrument instrument, Tuning tuning, Length? reach = null) => new()
    {
        NeckFrets = instrument.Frets,
        Hand = reach is { } own ? instrument.Hand with { LongestReach = own } : instrument.Hand,
        Bass = instrument.IsBassFree ? BassRule.Free : BassRule.Usual,
        UnpressedStrings = [.. instrument.ShortStrings.Where(s => s.Number <= tuning.Count).Select(s => tuning.StringIndex(s.Number))],
    };

    /// <summary>The highest fret to press, counted from the capo; 0 (open strings only) to 30.</summary>
    public int MaxFret { get; init; } = 15;

    /// <summary>Frets on the neck, counted from the nut: a capo leaves fewer. 1 to 36.</summary>
    public int NeckFrets { get; init; } = 20;

    /// <summary>Frets from the first pressed to the last, at most; null leaves it to the hand's reach.</summary>
    public int? MaxSpan { get; init; }

    public Hand Hand { get; init; } = Hand.Usual;

    public BassRule Bass { get; init; } = BassRule.Usual;

    /// <summary>
    /// Degrees that may be left out, as in 5 or 9. Default: the plain fifth of any chord of three notes or more; of six or
    /// more also the ninth, and the eleventh under a thirteenth; the third under a plain eleventh. Never the bass.
    /// </summary>
    public ImmutableArray<int>? MayOmit { get; init; }

    /// <summary>Fewest strings to sound; null asks for three, or two for a chord of two notes.</summary>
    public int? MinStrings { get; init; }

    /// <summary>Muted strings allowed between sounding ones.</summary>
    public int MaxMutedInner { get; init; } = 1;

    /// <summary>Indices of strings never pressed, as a five-string banjo's short one (0); they sound open or not at all.</summary>
    public ImmutableArray<int> UnpressedStrings { get; init; } = [];

    /// <summary>How many shapes to return; 1 upward.</summary>
    public int Results { get; init; } = 12;

    /// <summary>Throws for values that no search can work with.</summary>
    internal void Require()
    {
        if (MaxFret is < 0 or > 30)
            throw new ArgumentOutOfRangeException(nameof(MaxFret), MaxFret, "The highest fret to press is 0 to 30.");
        if (Results < 1)
            throw new ArgumentOutOfRangeException(nameof(Results), Results, "Ask for one result or more.");
        if (MaxMutedInner < 0 || MaxSpan < 0)
            throw new ArgumentOutOfRangeException(nameof(MaxMutedInner), $"{MaxMutedInner} muted, span {MaxSpan}", "Muted strings and spans are 0 or more.");
    }
}
