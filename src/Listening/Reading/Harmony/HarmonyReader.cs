using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Estimators.Keys;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>
/// Reads keys and chords together: the likeliest row of both, given what the spans say and what a person claimed, so that neither waits for the
/// other. The search is exact (<see cref="HarmonyModel"/>); how likely each chord is, is told in the keys that were read.
/// </summary>
public sealed class HarmonyReader
{
    private const int Candidates = 5;
    private const double LeastShare = 0.005;

    private readonly IChordWeigher weigher;
    private readonly HarmonyWeights weights;

    internal HarmonyReader(IChordWeigher weigher, HarmonyWeights weights) => (this.weigher, this.weights) = (weigher, weights);

    /// <summary>By the trained chord network.</summary>
    public static HarmonyReader Trained() => new(new NetworkChordWeigher(HarmonyWeights.ForNetwork.Spans), HarmonyWeights.ForNetwork);

    /// <summary>By rules about which notes a chord should hold.</summary>
    public static HarmonyReader ByRules() => new(new TemplateChordWeigher(HarmonyWeights.ForRules.Spans), HarmonyWeights.ForRules);

    /// <param name="notes">How strongly each pitch sounds.</param>
    /// <param name="beats">Empty where they are unknown.</param>
    /// <param name="length">The recording's.</param>
    /// <param name="claims">Those of keys and chords are held.</param>
    public ReadHarmony Read(NotePosteriorgram notes, ImmutableArray<HeardBeat> beats, Seconds length, Claims claims, CancellationToken ct = default) =>
        Read(Weigh(notes, beats, ct), length, claims);

    /// <summary>The first half of the work, and most of it: no claim of a chord or a key changes it.</summary>
    internal WeighedChords Weigh(NotePosteriorgram notes, ImmutableArray<HeardBeat> beats, CancellationToken ct = default) =>
        notes.Frames == 0 ? new([], [], [], [], null) : weigher.Weigh(notes, ChordSpan.Of(notes, beats), ct);

    /// <summary>The second half: a few hundredths of a second for a song.</summary>
    internal ReadHarmony Read(WeighedChords weighed, Seconds length, Claims claims)
    {
        if (weighed.Spans.Count == 0)
            return new([new(default, length, KeyNames.Nothing)], [], null) { Weighed = weighed };
        return Read(weighed, weighed.CutAt([.. claims.Chords.SelectMany(c => new[] { c.Start, c.End })]), length, claims);
    }

    private ReadHarmony Read(WeighedChords uncut, WeighedChords weighed, Seconds length, Claims claims)
    {
        var held = new HeldHarmony(weighed, claims, weights.Chords.Alike);
        var model = new HarmonyModel(weighed, weights, held);
        var path = new Lattices.Lattice(model).Best().States;
        int[] keyPath = [.. path.Select(s => HarmonyModel.Of(s).Key)];
        var posteriors = new ChordPosteriors(weighed.Spans, model, keyPath, weights.Chords.Temperature);
        var keys = new KeyStretches(weighed, model, held, weights.Keys, keyPath).Of(length);
        return new(keys, Gathered(weighed, held, [.. path.Select(s => HarmonyModel.Of(s).Chord)], posteriors, keys), posteriors) { Weighed = uncut };
    }

    private ImmutableArray<HeardChord> Gathered(
        WeighedChords weighed, HeldHarmony held, int[] path, ChordPosteriors posteriors, ImmutableArray<HeardKey> keys)
    {
        var chords = ImmutableArray.CreateBuilder<HeardChord>();
        for (int from = 0, to; from < path.Length; from = to)
        {
            to = from + 1;
            while (to < path.Length && path[to] == path[from] && held.ChordAt(to) == held.ChordAt(from))
                to++;
            var (start, end) = (weighed.Spans[from].Start, weighed.Spans[to - 1].End);
            chords.Add(new(start, end, held.ChordAt(from) is { } claim
                ? Told.Only(claim.Chord)
                : weights.Chords.Sureness.Of(Ranked(posteriors.Within(from, to), KeyPrior.KeyAt(keys, start)))));
        }
        return chords.ToImmutable();
    }

    private static Distribution<Chord> Ranked(double[] posteriors, Key? key) =>
        new([.. Enumerable.Range(0, posteriors.Length)
            .OrderByDescending(s => posteriors[s])
            .Take(Candidates)
            .Where((s, rank) => rank == 0 || posteriors[s] > LeastShare)
            .Select(s => new Candidate<Chord>(ChordSpelling.Spelled(ChordVocabulary.States[s], key), posteriors[s]))]);
}
