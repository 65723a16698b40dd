using System.Collections.Immutable;
using System.Globalization;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Which kinds of instrument play or sing over a guitar, and which phrases are whose. Every set of kinds that may be met explains all phrases
/// as well as it can; a kind is told where the sets that hold it are likelier than the others.
/// </summary>
internal sealed class LineLayers
{
    /// <summary>Phrases of one instrument are alike, so that a set is less sure than its phrases say, were each one's doubt its own.</summary>
    private const double Alike = 2;

    private readonly List<LinePhrase> phrases;
    private readonly List<KindMixture> tried;
    private readonly double[] chances;

    private LineLayers(List<LinePhrase> phrases, ImmutableArray<HeardKey> keys, IEnumerable<ImmutableArray<int>> sets)
    {
        this.phrases = phrases;
        double[][] fits = [.. phrases.Select(LineKinds.Fit)];
        tried = [.. sets.Select(kinds => KindMixture.Of(kinds, phrases, fits, keys))];
        var best = tried.Max(m => m.Score);
        chances = [.. tried.Select(m => Math.Exp((m.Score - best) / Alike))];
    }

    /// <param name="stretches">By first frame.</param>
    /// <param name="present">How sure it is that anything but the guitar sounds.</param>
    /// <param name="certain">A kind that a person says is there; null for none.</param>
    /// <param name="absent">Kinds that a person says aren't.</param>
    public static List<LineLayer> Of(
        List<LineStretch> stretches, ImmutableArray<HeardKey> keys, double present, LineKind? certain = null, ImmutableArray<LineKind> absent = default)
    {
        var sets = Sets().Where(set => IsAllowed([.. set.Select(k => LineNetwork.Kinds[k])], certain, absent)).ToList();
        return stretches.Count == 0 || sets.Count == 0 ? [] : new LineLayers(PhraseFinder.Of(stretches), keys, sets).Layers(present);
    }

    private static bool IsAllowed(ImmutableArray<LineKind> kinds, LineKind? certain, ImmutableArray<LineKind> absent) =>
        (certain is not { } there || kinds.Contains(there)) && (absent.IsDefaultOrEmpty || !kinds.Any(k => absent.Contains(k)));

    private List<LineLayer> Layers(double present)
    {
        var told = Enumerable.Range(0, LineNetwork.Kinds.Length).Where(k => Chance(m => m.Kinds.Contains(k)) >= 0.5).ToArray();
        var mixture = tried.FirstOrDefault(m => m.Kinds.Order().SequenceEqual(told)) ?? tried.MaxBy(m => m.Score)!;
        return [.. mixture.Kinds.Select(kind => Layer(kind, mixture, present))];
    }

    private LineLayer Layer(int kind, KindMixture mixture, double present)
    {
        var mine = phrases.Where((_, p) => mixture.Owners[p] == kind).ToList();
        var stretches = mine.SelectMany(p => p.Stretches).OrderBy(s => s.First).ThenBy(s => s.Midi).ToList();
        var words = string.Create(CultureInfo.InvariantCulture,
            $"{LinePresence.Covered(stretches) * LineEstimator.Hop.Value:0.0} s in {mine.Count} phrase{(mine.Count == 1 ? "" : "s")}");
        var others = Enumerable.Range(0, LineNetwork.Kinds.Length).Where(k => !mixture.Kinds.Contains(k))
            .Select(k => (Kind: k, Chance: present * Chance(m => m.Kinds.Contains(k) && !m.Kinds.Contains(kind)))).ToArray();
        var own = present * Chance(m => m.Kinds.Contains(kind));
        // Several others may be there together; of what the line may be instead, only one is.
        var shared = Math.Min(1, (1 - own) / Math.Max(1e-9, others.Sum(o => o.Chance)));
        return new(stretches, new([
            new(LineNetwork.Kinds[kind], own, words), .. others.Select(o => new Candidate<LineKind>(LineNetwork.Kinds[o.Kind], shared * o.Chance, words))]));
    }

    /// <summary>How likely the sets are of which something is true.</summary>
    private double Chance(Func<KindMixture, bool> isTrue) => tried.Zip(chances).Where(t => isTrue(t.First)).Sum(t => t.Second) / chances.Sum();

    /// <summary>Each kind alone, and a voice with a harmonica: a singer who sounds like a pipe or a bow at times can't be told from a singer with
    /// one.</summary>
    private static IEnumerable<ImmutableArray<int>> Sets() =>
        LineNetwork.Kinds.Select(kind => Set(kind)).Append(Set(LineKind.Harmonica, LineKind.Voice));

    private static ImmutableArray<int> Set(params LineKind[] kinds) => [.. kinds.Select(k => Array.IndexOf(LineNetwork.Kinds, k))];
}
