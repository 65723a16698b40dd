using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Makes notes and the contour of the strands that were picked.</summary>
internal static class LineNotes
{
    private const int Soon = 12;
    private const float Faint = 9, LeastDip = 4;
    private const double Shortest = 0.05;

    /// <summary>One note a strand, but that a strand which only seemed to end, without a dip before the next on its pitch, goes on in it.</summary>
    public static ImmutableArray<HeardLineNote> Of(List<WeighedStrand> strands)
    {
        var last = new Dictionary<int, (Strand Strand, HeardLineNote Note)>();
        var notes = new List<HeardLineNote>();
        foreach (var strand in strands)
        {
            var note = NoteOf(strand);
            if (last.TryGetValue(note.Midi, out var before) && GoesOn(before.Strand, strand.Strand))
            {
                notes.Remove(before.Note);
                note = note with { Onset = before.Note.Onset, Confidence = Math.Max(before.Note.Confidence, note.Confidence) };
            }
            notes.Add(note);
            last[note.Midi] = (strand.Strand, note);
        }
        return [.. notes.Where(n => (n.End - n.Onset).Value >= Shortest).OrderBy(n => n.Onset).ThenBy(n => n.Midi)];
    }

    public static PitchContour ContourOf(List<WeighedStrand> strands, int frames)
    {
        var (cents, confidence, loudest) = (new float[frames], new float[frames], new float[frames]);
        Array.Fill(loudest, float.MinValue);
        foreach (var strand in strands)
        {
            for (var f = Attack(strand.Strand); f < Release(strand.Strand) && strand.Strand.First + f < frames; f++)
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

    private static bool GoesOn(Strand before, Strand next)
    {
        if (next.First - before.End is < -3 or > 2)
            return false;
        float[] around = [.. Tail(before).Select(before.BriefDecibels), .. Enumerable.Range(0, Math.Min(Soon, next.Length)).Select(next.BriefDecibels)];
        var middle = Math.Min(Soon, before.Length);
        var low = around[Math.Max(0, middle - 5)..Math.Min(around.Length, middle + 5)].Min();
        return Math.Min(around[..middle].Max(), around[middle..].Max()) - low < LeastDip;
    }

    private static IEnumerable<int> Tail(Strand strand) => Enumerable.Range(Math.Max(0, strand.Length - Soon), Math.Min(Soon, strand.Length));

    /// <summary>The pitch is where the strand settles: the median of its last two thirds.</summary>
    private static HeardLineNote NoteOf(WeighedStrand weighed)
    {
        var strand = weighed.Strand;
        var settled = strand.Tones.Skip(strand.Length / 3).Select(t => t.Midi).Order().ToArray();
        var midi = settled[settled.Length / 2];
        var (onset, end) = (SecondInstrumentScan.Hop * (strand.First + Attack(strand)), SecondInstrumentScan.Hop * (strand.First + Release(strand)));
        return new((int)MathF.Round(midi), Cents.FromCents(Math.Round(100 * (midi - MathF.Round(midi)), 1)), onset, end, Math.Round(weighed.Chance, 3));
    }

    /// <summary>The frame at which a strand is within 9 dB of what it reaches soon after; windows see a note before it starts.</summary>
    private static int Attack(Strand strand)
    {
        var reach = Math.Min(strand.Length, Soon);
        var most = Enumerable.Range(0, reach).Max(f => strand.Decibels(f));
        return Enumerable.Range(0, reach).First(f => strand.Decibels(f) > most - Faint);
    }

    /// <summary>The frame after the last that is within 9 dB of what was shortly before; windows see a note after it ends.</summary>
    private static int Release(Strand strand)
    {
        var from = Math.Max(0, strand.Length - Soon);
        var most = Enumerable.Range(from, strand.Length - from).Max(f => strand.Decibels(f));
        return 1 + Enumerable.Range(from, strand.Length - from).Last(f => strand.Decibels(f) > most - Faint);
    }
}
