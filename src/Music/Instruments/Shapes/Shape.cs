using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Shapes;

/// <summary>
/// Frets a hand holds, one a string from the low side; null is a muted string, 0 an open one. Frets count from the capo.
/// Fingers (1 index … 4 little) may be given, 0 where none presses.
/// </summary>
public sealed record Shape
{
    private Shape(ImmutableArray<int?> frets, ImmutableArray<int> fingers)
    {
        Frets = frets;
        Fingers = fingers;
    }

    public ImmutableArray<int?> Frets { get; }

    /// <summary>Empty when no fingering is given; else one number a string.</summary>
    public ImmutableArray<int> Fingers { get; }

    public static Shape Of(params ImmutableArray<int?> frets) => new(Checked(frets), []);

    /// <summary>The pressed fret nearest the nut; null when no string is pressed.</summary>
    public int? FirstFret => Frets.Where(f => f > 0).Min();

    /// <summary>The pressed fret nearest the bridge; null when no string is pressed.</summary>
    public int? LastFret => Frets.Where(f => f > 0).Max();

    /// <summary>Frets from the first pressed to the last: 0 when all are on one fret or none is pressed. Open strings don't count.</summary>
    public int Span => (LastFret - FirstFret) ?? 0;

    public int SoundingStrings => Frets.Count(f => f is not null);

    /// <summary>Indices of muted strings that have a sounding one on both sides; a strum must skip or damp them.</summary>
    public ImmutableArray<int> MutedInnerStrings
    {
        get
        {
            var sounding = Enumerable.Range(0, Frets.Length).Where(i => Frets[i] is not null).ToArray();
            return sounding.Length == 0 ? [] : [.. Enumerable.Range(sounding[0], sounding[^1] - sounding[0]).Where(i => Frets[i] is null)];
        }
    }

    public Shape WithFingers(params ImmutableArray<int> fingers) =>
        fingers.Length == 0 || (fingers.Length == Frets.Length && fingers.All(f => f is >= 0 and <= 4))
            ? new(Frets, fingers)
            : throw new ArgumentException(
                $"Fingers {string.Join(' ', fingers)} for {Frets.Length} strings; give one a string, 1 (index) to 4 (little), 0 where none presses.",
                nameof(fingers));

    /// <summary>The same frets with no fingers given.</summary>
    public Shape WithoutFingers() => Fingers.IsEmpty ? this : new(Frets, []);

    /// <summary>Reads "x02210", or with frets over 9 separated by dots: "x.10.12.12.11.10" (a dot at the end is allowed, and needed on one string:
    /// "10.").</summary>
    public static bool TryParse([NotNullWhen(true)] string? text, [NotNullWhen(true)] out Shape? shape)
    {
        shape = null;
        if (string.IsNullOrEmpty(text))
            return false;
        var parts = text.Contains('.') ? (text.EndsWith('.') ? text[..^1] : text).Split('.') : [.. text.Select(c => c.ToString())];
        var frets = ImmutableArray.CreateBuilder<int?>();
        foreach (var part in parts)
        {
            if (part == "x")
                frets.Add(null);
            else if (int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out var fret) && fret <= Fretboard.MostFrets)
                frets.Add(fret);
            else
                return false;
        }
        shape = frets.Count <= 12 ? new(frets.ToImmutable(), []) : null;
        return shape is not null;
    }

    public static Shape Parse(string text) =>
        TryParse(text, out var shape)
            ? shape
            : throw new FormatException($"'{text}' is not a shape; write frets from the low string, x for a muted one, as in x02210 or x.10.12.12.11.10.");

    public bool Equals(Shape? other) =>
        other is not null && Frets.AsSpan().SequenceEqual(other.Frets.AsSpan()) && Fingers.AsSpan().SequenceEqual(other.Fingers.AsSpan());

    public override int GetHashCode() => Frets.Aggregate(17, (hash, fret) => HashCode.Combine(hash, fret));

    public override string ToString() =>
        string.Join(Frets.Any(f => f > 9) ? "." : "", Frets.Select(f => f?.ToString(CultureInfo.InvariantCulture) ?? "x"))
        + (Frets is [> 9] ? "." : "");

    private static ImmutableArray<int?> Checked(ImmutableArray<int?> frets) =>
        frets.Length is >= 1 and <= 12 && frets.All(f => f is null or (>= 0 and <= 36))
            ? frets
            : throw new ArgumentException("A shape has 1 to 12 strings, each muted (null) or at fret 0 to 36.", nameof(frets));
}
