using System.Collections.Immutable;

namespace Harkbook.Bench.Folk;

/// <summary>A tune as it is played through once, repeats written out. Times and lengths are in whole notes from its start.</summary>
/// <param name="Bars">Where each bar starts; a pick-up belongs to the bar before the first.</param>
internal sealed record AbcTune(
    string Title, ImmutableArray<AbcNote> Notes, ImmutableArray<AbcMark> Chords, ImmutableArray<AbcMark> Keys, ImmutableArray<AbcBar> Bars, double End);

/// <summary>One or more pitches (MIDI numbers) struck together.</summary>
internal sealed record AbcNote(double Start, double Length, ImmutableArray<int> Pitches);

/// <summary>A chord symbol or a key, from here on.</summary>
internal sealed record AbcMark(double Start, string Text);

/// <summary>A bar and its meter, as 6 over 8.</summary>
internal sealed record AbcBar(double Start, int Count, int Unit)
{
    public bool IsCompound => Count % 3 == 0 && Unit == 8;

    /// <summary>A felt beat in whole notes: a dotted quarter in compound meters, else a quarter.</summary>
    public double Beat => IsCompound ? 3 / 8.0 : 1 / 4.0;

    public double Length => (double)Count / Unit;
}
