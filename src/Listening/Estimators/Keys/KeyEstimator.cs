using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Keys;

/// <summary>
/// Stretches of one key. Where keys change is decoded over bars; what each stretch's key is, is weighed from its notes
/// (two published profiles), its bass, how it starts and ends, and its chords. Modes of the same tonic come as runners-up.
/// </summary>
public sealed class KeyEstimator(KeyOptions? options = null)
{
    /// <summary>Noise alone leaves a little evidence of notes everywhere.</summary>
    private const double AsGoodAsSilent = 0.9;

    private readonly KeyOptions options = options ?? new();

    /// <param name="beats">Empty where they are unknown.</param>
    /// <param name="chords">Empty where they are unknown.</param>
    /// <param name="length">The recording's; the last stretch ends there.</param>
    public ImmutableArray<HeardKey> Estimate(NotePosteriorgram evidence, ImmutableArray<HeardBeat> beats, ImmutableArray<HeardChord> chords, Seconds length) =>
        Estimate(evidence, beats, chords, null, length);

    /// <param name="weighed">What the chord network says of keys; null where it wasn't asked.</param>
    internal ImmutableArray<HeardKey> Estimate(
        NotePosteriorgram evidence, ImmutableArray<HeardBeat> beats, ImmutableArray<HeardChord> chords, WeighedChords? weighed, Seconds length)
    {
        var edges = Edges(beats, length);
        var slices = edges.Zip(edges.Skip(1), (a, b) => PitchClassContent.Between(evidence, a, b)).ToList();
        var network = weighed?.Keys is null ? null : edges.Zip(edges.Skip(1), (a, b) => weighed.KeysWithin(a, b)).ToList();
        var path = KeyPath.Decode(
            network is null ? [.. slices.Select(s => KeyPath.Fits(s.Amount, options))] : [.. network.Select(n => Array.ConvertAll(n.Sum, k => options.SpanWeight * k))], options);
        var regions = ImmutableArray.CreateBuilder<HeardKey>();
        for (int from = 0, to; from < path.Length; from = to)
        {
            to = from + 1;
            while (to < path.Length && path[to] == path[from])
                to++;
            var (start, end) = (edges[from], edges[to]);
            regions.Add(new(start, end, Weigh(slices[from..to], Cues(chords, beats, start, end), weighed?.Keys is null ? null : weighed.KeysWithin(start, end).Mean)));
        }
        return regions.ToImmutable();
    }

    /// <summary>Keys for amounts of the twelve pitch classes, C first, and of those in the bass (all 0 where unknown).</summary>
    public static Distribution<Key> Weigh(ReadOnlySpan<double> amounts, ReadOnlySpan<double> bass) =>
        KeyWeighing.Rank(amounts.ToArray(), bass.ToArray(), new double[12], new double[12]);

    private static ChordCues? Cues(ImmutableArray<HeardChord> chords, ImmutableArray<HeardBeat> beats, Seconds from, Seconds to) =>
        chords.IsEmpty ? null : new(
            chords.Where(c => c.End > from && c.Start < to),
            [.. beats.Where(b => b.PositionInBar == 1 && b.Time >= from && b.Time < to).Select(b => b.Time)]);

    private static Distribution<Key> Weigh(List<PitchClassContent> slices, ChordCues? chords, double[]? network)
    {
        if (slices.All(s => s.Silence > AsGoodAsSilent))
            return KeyWeighing.Nothing;
        var heard = slices.Where(s => s.Silence < 0.5).DefaultIfEmpty(slices[0]).ToList();
        return KeyWeighing.Rank(Summed(slices.Select(s => s.Amount)), Summed(slices.Select(s => s.Bass)), heard[0].Bass, heard[^1].Bass, chords, network);
    }

    private static double[] Summed(IEnumerable<double[]> rows) =>
        rows.Aggregate(new double[12], (sum, row) => [.. sum.Zip(row, (a, b) => a + b)]);

    private List<Seconds> Edges(ImmutableArray<HeardBeat> beats, Seconds length)
    {
        var bars = beats.Where(b => b.PositionInBar == 1 && b.Time < length).Select(b => b.Time).ToList();
        if (bars.Count < 3)
            bars = [.. Enumerable.Range(0, Math.Max(1, (int)(length / options.Slice))).Select(i => options.Slice * i)];
        return [default, .. bars.Where(d => d.Value > 0), length];
    }
}
