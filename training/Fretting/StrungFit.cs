using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Listening.Evidence;

namespace Harkbook.Training.Fretting;

/// <summary>Fits how strings are taken to vary and how much their stiffness counts beside the hand: the true guitar's chance among all of the catalogue.</summary>
internal static class StrungFit
{
    private sealed record Case(TuningEvidence Evidence, Guitar[] Guitars, double[] Hand, int True, bool[] Alike);

    public static void Run(string folder, int count, int seed, Func<int, MadePiece> made, int simulated)
    {
        var heard = Enumerable.Range(0, count).Where(i => File.Exists(Path.Combine(folder, $"strung-{seed}-{i}.evidence")))
            .AsParallel().AsOrdered().Select(i => Of(Path.Combine(folder, $"strung-{seed}-{i}.evidence"), made(i))).Where(c => c.True >= 0).ToArray();
        var cases = Enumerable.Range(1000, simulated).AsParallel().AsOrdered().Select(i => Simulated(made(i), i)).ToArray();
        foreach (var (name, set) in new[] { ("simulated", cases), ("heard", heard) })
        {
            var strings = set.AsParallel().AsOrdered().Select(c => c.Guitars.Select(g => TuningEstimator.StringsOf(c.Evidence, g)).Select(f => (f.Constants.LogLikelihood, f.InHand)).ToArray()).ToArray();
            foreach (var likely in new[] { 0, 0.05, 0.1, 0.2, 0.35, 0.6 })
                foreach (var inHand in new[] { 0, 0.1, 0.25, 0.5, 1 })
                    Report($"{name} stiffness {likely} in hand {inHand}", set, [.. set.Select((c, i) => Harkbook.Listening.Softmax.Of([.. c.Hand.Select((h, g) => h + likely * strings[i][g].LogLikelihood + inHand * strings[i][g].InHand)]))]);
        }
    }

    /// <summary>Misheard notes, each with what might have been measured of its string: mostly sharp, some blurred, some wrong.</summary>
    private static Case Simulated(MadePiece piece, int i)
    {
        var random = new Random(i);
        var guitar = new ThrownGuitar(random, piece.Tuning, piece.Capo);
        var (heard, source) = Mishearing.Of(piece.Notes, random, 0.6 * random.NextDouble());
        var wrong = 0.05 + 0.2 * random.NextDouble();
        var measured = heard.Select((note, n) => (note, Measured(source[n] < 0 || random.NextDouble() < wrong ? -5.5 + 2.3 * random.NextDouble()
            : guitar.LogB(piece.Notes[source[n]].StringIndex, piece.Notes[source[n]].Fret) + 0.03 * ThrownGuitar.Normal(random), random.NextDouble() < 0.3 ? 0.25 : 0.06))).ToArray();
        return Of(heard, StiffnessEvidence.Of(measured), piece);

        static double[] Measured(double centre, double width) =>
            [.. Enumerable.Range(0, StiffnessGrid.Count).Select(b => -Math.Min(7, 0.5 * Math.Pow((StiffnessGrid.At(b) - centre) / width, 2)))];
    }

    private static Case Of(string path, MadePiece piece)
    {
        var evidence = EvidenceFile.Read(path);
        return Of(new NotePicker(evidence.Picking).Pick(evidence.Notes), evidence.Stiffness, piece);
    }

    private static Case Of(System.Collections.Immutable.ImmutableArray<Harkbook.Listening.HeardNote> notes, StiffnessEvidence stiffness, MadePiece piece)
    {
        var gathered = new TuningEvidence(notes, piece.Key, new(), StiffNotes.Of(stiffness, notes));
        var guitars = TuningEstimator.Guitars(new()).ToArray();
        var fits = guitars.GroupBy(g => string.Join(' ', TuningEstimator.Open(g))).Select(g => (Fit: new TuningFit(gathered, [.. TuningEstimator.Open(g.First())]), Key: g.Key)).ToArray();
        var weighed = TuningWeigher.Shipped.Weigh([.. fits.Select(f => f.Fit)]);
        var byKey = fits.Select((f, i) => (f.Key, weighed[i])).ToDictionary(f => f.Key, f => f.Item2);
        var truth = string.Join(' ', piece.Tuning.Strings.Select(s => s.Midi + piece.Capo.Fret));
        return new(gathered, guitars, [.. guitars.Select(g => byKey[string.Join(' ', TuningEstimator.Open(g))])],
            Array.FindIndex(guitars, g => g.Named.Tuning == piece.Tuning && g.Capo == piece.Capo), [.. guitars.Select(g => string.Join(' ', TuningEstimator.Open(g)) == truth)]);
    }

    private static void Report(string name, Case[] cases, double[][] chances)
    {
        var (first, alike, three, log) = (0, 0, 0, 0.0);
        for (var i = 0; i < cases.Length; i++)
        {
            var order = Enumerable.Range(0, chances[i].Length).OrderByDescending(g => chances[i][g]).ToArray();
            first += order[0] == cases[i].True ? 1 : 0;
            alike += cases[i].Alike[order[0]] ? 1 : 0;
            three += order.Take(3).Any(g => cases[i].Alike[g]) ? 1 : 0;
            log += Math.Log(0.999 * chances[i][cases[i].True] + 0.001 / chances[i].Length);
        }
        Console.WriteLine($"{name}: log {log / cases.Length:0.000}, first {(double)first / cases.Length:0.000}, alike {(double)alike / cases.Length:0.000}, alike among three {(double)three / cases.Length:0.000} of {cases.Length}");
    }
}
