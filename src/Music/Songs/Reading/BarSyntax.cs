using System.Collections.Immutable;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>One bar of one part as written, from behind its bar line to before the next.</summary>
/// <param name="Between">All that stands between the bar lines.</param>
internal sealed record BarSyntax(Span Between, int Cells, ImmutableArray<Leaf> Leaves);

/// <summary>
/// The smallest share of a bar: a cell, or a piece of one cell split by commas. It starts <paramref name="Numerator"/>/<paramref name="Denominator"/>
/// of the bar after the bar's start.
/// </summary>
/// <param name="Raw">As written, mark included.</param>
/// <param name="Value">Without mark and quotes; "." goes on, "_" is silence unless <paramref name="IsQuoted"/>.</param>
/// <param name="Heard">Set by a mark behind the value.</param>
internal sealed record Leaf(int Numerator, int Denominator, Token Raw, Token Value, bool IsQuoted, Standing? Heard)
{
    public bool GoesOn => !IsQuoted && Value.Text == ".";

    public bool Silences => !IsQuoted && Value.Text == "_";

    /// <summary>As written, quotes included, without the mark.</summary>
    public string Unmarked => Heard is null ? Raw.Text : Raw.Text[..Raw.Text.LastIndexOf('?')];

    public Beats StartIn(Meter meter) => Beats.Fraction(meter.BeatsPerBar * Numerator, Denominator);
}
