using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Training.Fretting;

/// <summary>
/// Fits the network that weighs tunings: the true guitar among all of the catalogue under every capo and those that differ from the true one on one
/// string. Misheard pieces, of which no string is known, and pieces on strings from formulas as they were heard, once with what stiffness says and
/// once without.
/// </summary>
internal static class TuningWeightFit
{
    private const int Parts = 5, Units = 24;

    /// <param name="make">A piece in a tuning; the number fixes all else. The makers take turns.</param>
    /// <param name="heard">Pieces on strings with what was heard of them.</param>
    public static void Run(int count, string path, Func<int, double, MadePiece>[] make, (MadePiece Piece, HeardStrings Heard)[] heard)
    {
        var misheard = Cases(count, i => Misheard(i, make[i % make.Length](i / make.Length, 25 + 45 * (i * 0.618 % 1))));
        var strung = Cases(heard.Length, i => Heard(i, heard[i], true));
        var unstrung = Cases(heard.Length, i => Heard(i, heard[i], false));
        Console.WriteLine($"{misheard.Length} misheard and {strung.Length} heard pieces, {strung.Average(c => c.Features.Length):0} guitars each");
        var networks = Enumerable.Range(0, Parts + 1).AsParallel().AsOrdered().WithDegreeOfParallelism(Parts + 1)
            .Select(part => new RankingNetwork([.. misheard, .. Without(strung, part), .. Without(unstrung, part)], 11, Units)).ToArray();
        Tell("held out, strings known", strung, networks);
        Tell("held out, strings not known", unstrung, networks);
        networks[Parts].Write(path);
    }

    /// <summary>All but one part of them; past the last part all.</summary>
    private static RankingCase[] Without(RankingCase[] cases, int part) => [.. cases.Where((_, i) => i % Parts != part)];

    private static RankingCase[] Cases(int count, Func<int, RankingCase> of) => [.. Enumerable.Range(0, count).AsParallel().AsOrdered().Select(of)];

    /// <summary>Each case by the network that was fitted without it, among the catalogue alone; and the line that makes such posteriors as sure as they are right.</summary>
    private static void Tell(string name, RankingCase[] cases, RankingNetwork[] networks)
    {
        var told = cases.Select((c, i) => (Case: c, Chances: networks[i % Parts].Chances(c).Take(c.Known).ToArray())).Where(t => t.Case.True < t.Case.Known)
            .Select(t => (t.Case, Order: Enumerable.Range(0, t.Chances.Length).OrderByDescending(g => t.Chances[g]).ToArray(),
                Chances: t.Chances.Select(x => x / t.Chances.Sum()).ToArray())).ToArray();
        var sure = told.Select(t => (LogOdds: Math.Log(t.Chances[t.Order[0]] / Math.Max(1e-6, 1 - t.Chances[t.Order[0]])), Right: t.Order[0] == t.Case.True)).ToArray();
        var (slope, offset) = Line(sure);
        var over = sure.Where(s => slope * s.LogOdds + offset > Math.Log(9)).ToArray();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{name}: first {told.Average(t => t.Order[0] == t.Case.True ? 1.0 : 0):0.000}, alike {told.Average(t => t.Case.Alike[t.Order[0]] ? 1.0 : 0):0.000}, alike among three {told.Average(t => t.Order.Take(3).Any(g => t.Case.Alike[g]) ? 1.0 : 0):0.000}, log {told.Average(t => Math.Log(Math.Max(1e-4, t.Chances[t.Case.True]))):0.000} of {told.Length}; sureness slope {slope:0.00} offset {offset:0.00}; at least 90% sure right {over.Count(o => o.Right)}/{over.Length}"));
    }

    /// <summary>A logistic regression by Newton's steps.</summary>
    private static (double Slope, double Offset) Line((double LogOdds, bool Right)[] rows)
    {
        var (slope, offset) = (1.0, 0.0);
        for (var step = 0; step < 30; step++)
        {
            var (a, b, aa, ab, bb) = (0.0, 0.0, 1e-6, 0.0, 1e-6);
            foreach (var (x, right) in rows)
            {
                var p = 1 / (1 + Math.Exp(-slope * x - offset));
                var (off, w) = ((right ? 1 : 0) - p, p * (1 - p));
                (a, b, aa, ab, bb) = (a + off * x, b + off, aa + w * x * x, ab + w * x, bb + w);
            }
            var det = aa * bb - ab * ab;
            (slope, offset) = (slope + (bb * a - ab * b) / det, offset + (aa * b - ab * a) / det);
        }
        return (slope, offset);
    }

    private static RankingCase Heard(int i, (MadePiece Piece, HeardStrings Heard) of, bool isStrung) => Case(new Random(i), of.Piece,
        new(of.Heard.Notes, of.Heard.Key, new(), isStrung ? StiffNotes.Of(of.Heard.Stiffness, of.Heard.Notes) : null));

    private static RankingCase Misheard(int i, MadePiece piece)
    {
        var random = new Random(i);
        var (heard, _) = Mishearing.Of(piece.Notes, random, 0.6 * random.NextDouble());
        var key = random.NextDouble() < 0.8 ? piece.Key : new(PitchName.FromPitchClass((piece.Key.Tonic.PitchClass + (random.Next(2) == 0 ? 7 : 5)) % 12), piece.Key.Mode);
        return Case(random, piece, new(heard, key, new()));
    }

    private static RankingCase Case(Random random, MadePiece piece, TuningEvidence evidence)
    {
        var truth = new Guitar(new(TuningCatalogue.Guitar, piece.Name, [], piece.Tuning, "made"), piece.Capo);
        var known = TuningEstimator.Guitars(new()).ToArray();
        var at = Array.FindIndex(known, g => g.Named.Tuning == piece.Tuning && g.Capo == piece.Capo);
        Guitar[] guitars = [.. known, .. at < 0 ? [truth] : Array.Empty<Guitar>(), .. Neighbours(truth).OrderBy(_ => random.Next()).Take(12)];
        var fits = guitars.Select(Name).Distinct().ToDictionary(open => open, open => new TuningFit(evidence, [.. open.Split(' ').Select(int.Parse)]));
        var strings = guitars.Select(g => evidence.Telling.IsEmpty ? null : new StringFit(evidence, g)).ToArray();
        return new(TuningWeigher.Against([.. guitars.Select(g => fits[Name(g)])], strings), at < 0 ? known.Length : at, known.Length,
            [.. guitars.Select(g => Name(g) == Name(truth))]);
    }

    private static string Name(Guitar guitar) => string.Join(' ', TuningEstimator.Open(guitar));

    private static IEnumerable<Guitar> Neighbours(Guitar of) => Enumerable.Range(0, 6).SelectMany(_ => new[] { -3, -2, -1, 1, 2, 3 }, (s, by) =>
        of with { Named = of.Named with { Tuning = Tuning.Of(of.Named.Tuning.Strings.SetItem(s, Pitch.FromMidi(of.Named.Tuning.Strings[s].Midi + by, 2))) } })
        .Where(g => g.Named.Tuning.Strings.Zip(g.Named.Tuning.Strings.Skip(1)).All(p => p.First.Midi <= p.Second.Midi));
}

/// <summary>What a network is shown of each guitar for a piece, and which is the true one.</summary>
/// <param name="Known">How many of them, first in the list, the catalogue has.</param>
/// <param name="Alike">Which of them sound like the true one.</param>
internal sealed record RankingCase(float[][] Features, int True, int Known, bool[] Alike);
