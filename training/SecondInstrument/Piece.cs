using Harkbook.Audio.Signals;
using Harkbook.Listening;
using Harkbook.Music.Theory;

namespace Harkbook.Training.SecondInstrument;

/// <summary>A made-up recording with the lines that are played or sung on it; none on a guitar alone.</summary>
internal sealed record Piece(Signal Sound, IReadOnlyList<Part> Parts, PitchName Tonic, bool Minor)
{
    /// <summary>Which kinds, as "voice+harmonica"; "none".</summary>
    public string Kinds => Parts.Count == 0 ? "none" : string.Join('+', Parts.Select(p => p.Kind.ToString().ToLowerInvariant()));
}

/// <summary>One line: what plays it, its notes and, for a harmonica, its key and position.</summary>
internal sealed record Part(LineKind Kind, List<LineNote> Notes, PitchName? Harp, int Position);
