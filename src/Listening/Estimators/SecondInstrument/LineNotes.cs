using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Makes notes and the contour of the strands that were picked.</summary>
internal static class LineNotes
{
    private const int Soon = 12;
    private const float Faint = 9;
    private const double Shortest = 0.05;

    /// <summary>One note a strand: strands are cut where a note starts anew.</summary>
    public static ImmutableArray<HeardLineNote> Of(List<WeighedStrand> strands) =>
        [.. strands.Select(NoteOf).Where(n => (n.End - n.Onset).Value >= Shortest).OrderBy(n => n.Onset).ThenBy(n => n.Midi)];

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
