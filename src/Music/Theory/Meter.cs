using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Music.Theory;

/// <summary>
/// A meter as written, 4/4 or 6/8. In a compound meter (6/8, 9/8, 12/8) the felt beat is the dotted note,
/// so a bar of 6/8 has two beats, each of three divisions. 3/8 has three beats, but one dotted beat among bars of 6/8.
/// </summary>
public readonly record struct Meter
{
    private readonly int upperLessFour;
    private readonly int lowerLessFour;
    private readonly bool isDottedBeat;

    private Meter(int upper, int lower, bool isDottedBeat = false) => (upperLessFour, lowerLessFour, this.isDottedBeat) = (upper - 4, lower - 4, isDottedBeat);

    public int Upper => upperLessFour + 4;

    public int Lower => lowerLessFour + 4;

    public bool IsCompound => isDottedBeat || (Lower >= 8 && Upper > 3 && Upper % 3 == 0);

    /// <summary>Felt beats in a bar.</summary>
    public int BeatsPerBar => IsCompound ? Upper / 3 : Upper;

    /// <summary>Divisions of the felt beat: 3 in a compound meter, else 2.</summary>
    public int DivisionsPerBeat => IsCompound ? 3 : 2;

    /// <summary>How many counts a felt beat has by a way of counting: 3 where the eighths of 6/8 are counted, else 1.</summary>
    public int CountsPerBeat(Counting counting) => counting == Counting.Divisions && IsCompound ? DivisionsPerBeat : 1;

    /// <summary>The length of a bar in felt beats.</summary>
    public Beats BarLength => Beats.Whole(BeatsPerBar);

    /// <summary>The felt beat as a fraction of a quarter note: 1 in 4/4, 1.5 in 6/8, 0.5 in 7/8.</summary>
    public double QuartersPerBeat => 4.0 / Lower * (IsCompound ? 3 : 1);

    /// <summary>The meter of a longer or shorter bar of the same felt beats: three of 4/4 are 3/4. A single compound beat has no meter of
    /// its own and is written 1/4.</summary>
    public Meter OfBeats(int beats)
    {
        if (beats == BeatsPerBar)
            return this;
        var odd = Of(Math.Min(32, IsCompound ? 3 * beats : beats), Lower);
        return odd.BeatsPerBar == beats ? odd : Of(beats, 4);
    }

    /// <summary>This meter for a bar of a song in another one: three divisions of that one's compound beat are one such beat, as 3/8 in 6/8.</summary>
    public Meter Among(Meter song) => Upper == 3 && song.IsCompound && song.Lower == Lower ? new(Upper, Lower, true) : this;

    /// <summary>4/4, the default.</summary>
    public static Meter CommonTime => default;

    public static Meter Of(int upper, int lower) =>
        upper is < 1 or > 32 ? throw new ArgumentOutOfRangeException(nameof(upper), upper, "A bar holds 1 to 32 written beats.")
        : lower is not (1 or 2 or 4 or 8 or 16) ? throw new ArgumentOutOfRangeException(nameof(lower), lower, "The lower number is 1, 2, 4, 8 or 16.")
        : new(upper, lower);

    public static bool TryParse([NotNullWhen(true)] string? text, out Meter meter)
    {
        meter = default;
        var parts = text?.Split('/') ?? [];
        if (parts.Length != 2
            || !int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var upper)
            || !int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var lower)
            || upper is < 1 or > 32 || lower is not (1 or 2 or 4 or 8 or 16))
            return false;
        meter = new(upper, lower);
        return true;
    }

    public static Meter Parse(string text) =>
        TryParse(text, out var meter)
            ? meter
            : throw new FormatException($"'{text}' is not a meter; write it as 4/4, 3/4 or 6/8.");

    public override string ToString() => $"{Upper}/{Lower}";
}
