using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Reading;

/// <summary>
/// Says chords as simply as what is played allows: a sixth, seventh, second or fourth stays in a chord's name only where the accompaniment has it. A note
/// that a voice or a second instrument sounds is the melody's; without it the chord is its triad.
/// </summary>
/// <param name="notes">Of the whole recording.</param>
/// <param name="lines">What isn't the accompaniment.</param>
internal sealed class PlainChords(NotePosteriorgram notes, HeardLines lines)
{
    /// <summary>A pitch that sounds at least as likely as this counts.</summary>
    private const float Sounds = 0.4f;

    /// <summary>An added note must sound for such a part of the time that the chord's third and fifth do.</summary>
    private const double LeastShare = 0.35;

    private static readonly ImmutableArray<ChordQuality> Triads = [ChordQuality.Major, ChordQuality.Minor];

    private readonly ILookup<int, HeardLineNote> byLines = lines.Found.SelectMany(l => l.Notes).ToLookup(n => n.Midi);

    /// <summary>Chords that a person told stay as they are.</summary>
    public ImmutableArray<HeardChord> Of(ImmutableArray<HeardChord> chords) => [.. chords.Select(Of)];

    private HeardChord Of(HeardChord heard)
    {
        var best = heard.Chord.Best;
        if (notes.Frames == 0 || byLines.Count == 0 || heard.Chord.Candidates is [{ Confidence: 1 }] || Triad(heard) is not { } triad || IsPlayed(heard, triad))
            return heard;
        var bass = triad.PitchClasses.Contains((best.Bass.PitchClass - best.Root.PitchClass + 12) % 12) ? best.Bass : best.Root;
        var plain = Chord.Of(best.Root, triad, bass);
        var candidates = heard.Chord.Candidates;
        var sure = candidates[0].Confidence + candidates.Skip(1).Where(c => c.Value == plain).Sum(c => c.Confidence);
        return heard with
        {
            Chord = new([candidates[0] with { Value = plain, Confidence = Math.Min(1, sure) }, .. candidates.Skip(1).Where(c => c.Value != plain)]),
        };
    }

    /// <summary>The triad that an extended chord holds; of a suspended one the likelier of both, and null for any other chord.</summary>
    private static ChordQuality? Triad(HeardChord heard)
    {
        var (root, quality) = (heard.Chord.Best.Root, heard.Chord.Best.Quality);
        if (heard.Chord.Best.IsNone || Triads.Contains(quality) || !quality.PitchClasses.Contains(7))
            return null;
        if (Triads.FirstOrDefault(t => t.PitchClasses.All(quality.PitchClasses.Contains)) is { } held)
            return held;
        return quality.PitchClasses.Length < 3 ? null : heard.Chord.Candidates.Skip(1)
            .Where(c => c.Value.Root == root && Triads.Contains(c.Value.Quality)).MaxBy(c => c.Confidence)?.Value.Quality;
    }

    /// <summary>Whether all notes that the triad lacks belong to the accompaniment.</summary>
    private bool IsPlayed(HeardChord heard, ChordQuality triad)
    {
        var (from, to, root) = (notes.FrameAt(heard.Start), notes.FrameAt(heard.End), heard.Chord.Best.Root.PitchClass);
        var played = new int[12];
        for (var frame = from; frame <= to; frame++)
            Count(frame, played);
        var usual = triad.PitchClasses.Skip(1).Average(pc => played[(root + pc) % 12]);
        return heard.Chord.Best.Quality.PitchClasses.Except(triad.PitchClasses).All(pc => played[(root + pc) % 12] >= LeastShare * usual);
    }

    /// <summary>Counts each pitch class that the accompaniment sounds in a frame.</summary>
    private void Count(int frame, int[] played)
    {
        var counted = 0;
        for (var p = 0; p < notes.Pitches; p++)
        {
            var pc = (notes.LowestMidi + p) % 12;
            if ((counted & (1 << pc)) != 0 || !IsHeard(frame, p))
                continue;
            counted |= 1 << pc;
            played[pc]++;
        }
    }

    private bool IsHeard(int frame, int pitch)
    {
        if (notes.Sounding[frame, pitch] < Sounds)
            return false;
        var time = notes.Hop * frame;
        return !byLines[notes.LowestMidi + pitch].Any(n => n.Onset <= time && n.End >= time);
    }
}
