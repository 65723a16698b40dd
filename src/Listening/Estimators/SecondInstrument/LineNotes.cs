using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Makes notes and the contour of the strands that were picked.</summary>
internal static class LineNotes
{
    /// <summary>Strands of one semitone that follow each other without a new attack become one note.</summary>
    public static ImmutableArray<HeardLineNote> Of(List<WeighedStrand> strands)
    {
        var open = new Dictionary<int, HeardLineNote>();
        var notes = new List<HeardLineNote>();
        foreach (var strand in strands)
        {
            var note = NoteOf(strand);
            if (open.TryGetValue(note.Midi, out var before) && Continues(before, note))
                note = note with { Onset = before.Onset, Confidence = Math.Max(before.Confidence, note.Confidence) };
            else if (before is not null)
                notes.Add(before);
            open[note.Midi] = note;
        }
        return [.. notes.Concat(open.Values).Where(n => (n.End - n.Onset).Value >= 0.06).OrderBy(n => n.Onset).ThenBy(n => n.Midi)];
    }

    public static PitchContour ContourOf(List<WeighedStrand> strands, int frames)
    {
        var (cents, confidence, loudest) = (new float[frames], new float[frames], new float[frames]);
        Array.Fill(loudest, float.MinValue);
        foreach (var strand in strands)
        {
            for (var f = 0; f < strand.Strand.Length && strand.Strand.First + f < frames; f++)
            {
                var (at, level) = (strand.Strand.First + f, strand.Strand.Decibels(f));
                if (level <= loudest[at])
                    continue;
                loudest[at] = level;
                cents[at] = MathF.Round(100 * (strand.Strand.Tones[f].Midi - 69), 1);
                confidence[at] = (float)Math.Round(strand.Chance, 3);
            }
        }
        return new(SecondInstrumentScan.Hop, [.. cents], [.. confidence]);
    }

    private static bool Continues(HeardLineNote before, HeardLineNote next) =>
        (next.Onset - before.End) / SecondInstrumentScan.Hop is > -3 and <= 2;

    /// <summary>The pitch is where the strand settles: the median of its last two thirds.</summary>
    private static HeardLineNote NoteOf(WeighedStrand weighed)
    {
        var strand = weighed.Strand;
        var settled = strand.Tones.Skip(strand.Length / 3).Select(t => t.Midi).Order().ToArray();
        var midi = settled[settled.Length / 2];
        var (onset, end) = (SecondInstrumentScan.Hop * Attack(strand), SecondInstrumentScan.Hop * strand.End);
        return new((int)MathF.Round(midi), Cents.FromCents(Math.Round(100 * (midi - MathF.Round(midi)), 1)), onset, end, Math.Round(weighed.Chance, 3));
    }

    /// <summary>The frame at which a strand is within 9 dB of what it reaches soon after; windows see a note before it starts.</summary>
    private static int Attack(Strand strand)
    {
        var reach = Math.Min(strand.Length, 12);
        var most = Enumerable.Range(0, reach).Max(f => strand.Decibels(f));
        return strand.First + Enumerable.Range(0, reach).First(f => strand.Decibels(f) > most - 9);
    }
}
