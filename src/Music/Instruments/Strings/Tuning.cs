using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Strings;

/// <summary>The sounding pitches of open strings without capo, the lowest-sounding side first.</summary>
public sealed record Tuning
{
    private Tuning(ImmutableArray<Pitch> strings) => Strings = strings;

    /// <summary>Open pitches; index 0 is the string on the low side (in the trade: string 6 of a six-string guitar).</summary>
    public ImmutableArray<Pitch> Strings { get; }

    public int Count => Strings.Length;

    public static Tuning Standard { get; } = Parse("E2 A2 D3 G3 B3 E4");

    /// <summary>
    /// A string's number in the trade and in MusicXML 4.0 (type "string-number"): from the high side, which is 1.
    /// </summary>
    public int StringNumber(int stringIndex) =>
        stringIndex >= 0 && stringIndex < Count
            ? Count - stringIndex
            : throw new ArgumentOutOfRangeException(nameof(stringIndex), stringIndex, $"String indices run from 0 to {Count - 1}.");

    /// <summary>The index (0 = the low side) of a string number (1 = the high side).</summary>
    public int StringIndex(int stringNumber) =>
        stringNumber >= 1 && stringNumber <= Count
            ? Count - stringNumber
            : throw new ArgumentOutOfRangeException(nameof(stringNumber), stringNumber, $"String numbers run from 1, the high side, to {Count}.");

    /// <summary>Whether some string sounds lower than one nearer the low side, as on a ukulele: the bass may then lie anywhere.</summary>
    public bool IsReentrant => Strings.Zip(Strings.Skip(1)).Any(pair => pair.Second.Midi < pair.First.Midi);

    /// <summary>Semitones by which each string differs from another tuning of as many strings: −2 is a tone down.</summary>
    public ImmutableArray<int> ChangeFrom(Tuning other) =>
        other.Count == Count
            ? [.. Strings.Zip(other.Strings, (mine, theirs) => mine.Midi - theirs.Midi)]
            : throw new ArgumentException($"{Count} strings can't be compared with {other.Count}.", nameof(other));

    /// <summary>Every string raised (or lowered, if negative) by as many semitones, spelled near a place on the line of fifths.</summary>
    public Tuning Raised(int semitones, int centre = 2) => new([.. Strings.Select(s => Pitch.FromMidi(s.Midi + semitones, centre))]);

    public static Tuning Of(params IEnumerable<Pitch> strings)
    {
        var pitches = strings.ToImmutableArray();
        return pitches.Length is >= 1 and <= 12
            ? new(pitches)
            : throw new ArgumentOutOfRangeException(nameof(strings), pitches.Length, "An instrument has 1 to 12 strings.");
    }

    public static bool TryParse([NotNullWhen(true)] string? text, [NotNullWhen(true)] out Tuning? tuning)
    {
        tuning = null;
        var words = text?.Split(' ', StringSplitOptions.RemoveEmptyEntries) ?? [];
        var pitches = ImmutableArray.CreateBuilder<Pitch>();
        foreach (var word in words)
        {
            if (!Pitch.TryParse(word, out var pitch))
                return false;
            pitches.Add(pitch);
        }
        tuning = pitches.Count is >= 1 and <= 12 ? new(pitches.ToImmutable()) : null;
        return tuning is not null;
    }

    /// <summary>Reads pitches from the low side up: "D2 A2 D3 F#3 A3 D4".</summary>
    public static Tuning Parse(string text) =>
        TryParse(text, out var tuning)
            ? tuning
            : throw new FormatException($"'{text}' is not a tuning; write the open strings from low to high, as in 'D2 A2 D3 F#3 A3 D4'.");

    public bool Equals(Tuning? other) => other is not null && Strings.AsSpan().SequenceEqual(other.Strings.AsSpan());

    public override int GetHashCode() => Strings.Aggregate(17, HashCode.Combine);

    public override string ToString() => string.Join(' ', Strings);
}
