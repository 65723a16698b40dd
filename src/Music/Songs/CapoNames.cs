using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs;

/// <summary>
/// The two names that a chord has under a capo over all strings: what sounds, and the hand's, as the same shape is called without the
/// capo ("play A, it sounds Bb").
/// </summary>
/// <param name="Raise">From the hand's names up to those that sound.</param>
/// <param name="HandFirst">Whether the song's own names are the hand's.</param>
public sealed record CapoNames(Interval Raise, bool HandFirst)
{
    /// <summary>Chords whose shape contradicts its name: what the hand's or the sounding name would be, nobody knows.</summary>
    public ImmutableArray<string> Contradicted { get; init; } = [];

    /// <summary>Null where chords have one name: without a capo, and under one that stops only some strings.</summary>
    public static CapoNames? Of(Song song) =>
        song.Capo.Value is { Fret: > 0, IsPartial: false } capo
            ? new(song.HandNames ?? RaiseTo(song.Key.Value, capo),
                song.HandNames is not null) { Contradicted = [.. WrongShapes.Of(song).Select(w => w.Shape.Name)] }
            : null;

    /// <summary>The interval that a capo adds to the hand's names, so spelled that the key that sounds has few signs.</summary>
    public static Interval RaiseFrom(Key hand, Capo capo) => Spelled(capo.Fret, hand.Signature, 1);

    /// <summary>The interval that a capo adds, so spelled that the hand's key has few signs.</summary>
    public static Interval RaiseTo(Key sounding, Capo capo) => Spelled(capo.Fret, sounding.Signature, -1);

    /// <summary>The hand's name for a name that sounds, label and all.</summary>
    public string Hand(string sounding) => WrittenName.Moved(sounding, -Raise);

    public Key Hand(Key sounding) => sounding with { Tonic = sounding.Tonic - Raise };

    /// <summary>The name to set large: the song's own.</summary>
    public string First(string sounding) => HandFirst ? Hand(sounding) : sounding;

    /// <summary>The other name, without a label; empty where the chord's shape contradicts its name.</summary>
    public string Second(string sounding) => Contradicted.Contains(sounding) ? "" : NamedShape.SymbolOf(HandFirst ? sounding : Hand(sounding));

    /// <summary>The other name in words, "play A" beside what sounds and "sounds Bb" beside the hand's.</summary>
    public string SecondInWords(string sounding) => Second(sounding) is { Length: > 0 } second ? $"{(HandFirst ? "sounds" : "play")} {second}" : "";

    /// <summary>The song's own name for a chord, and in brackets the other: "Am (sounds Bm)".</summary>
    public string Both(string sounding) => $"{First(sounding)} ({SecondInWords(sounding)})";

    private static Interval Spelled(int semitones, int signature, int direction)
    {
        var fifths = Floor.Mod(7 * semitones, 12);
        var best = new[] { fifths, fifths - 12 }.MinBy(f => (Math.Abs(signature + direction * f), Math.Abs(f)));
        return Interval.Of(best, (semitones - 7 * best) / 12);
    }
}
