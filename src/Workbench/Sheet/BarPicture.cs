using System.Collections.Immutable;

namespace Harkbook.Workbench.Sheet;

/// <summary>A bar on the open sheet: where it stands in its row, and what a reader who can't see it is told.</summary>
/// <param name="Doubts">How many doubts nobody has answered stand in it.</param>
public sealed record BarPicture(int Number, double Left, double Right, ImmutableArray<ChordPicture> Chords, int Doubts)
{
    /// <summary>"bar 9, B minor, heard, 62% sure, doubtful, heard D major".</summary>
    public string Spoken => $"bar {Number}, " + (Chords.IsEmpty ? "no chord claimed"
        : string.Join(", then ", Chords.Select(c => $"{SpokenChord.Of(c.Shown)}, {c.Standing}")))
        + (Doubts == 0 ? "" : Doubts == 1 ? ", 1 doubt" : $", {Doubts} doubts");
}
