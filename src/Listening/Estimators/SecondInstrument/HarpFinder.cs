using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Ranks the twelve usual Richter harmonicas for a line: each note is likelier on a harp that has it plain than bent, notes together
/// are likelier where one breath gives them, and harps in the positions that players use for the song's key are likelier than others.
/// The chances are our judgement of common practice, not counted from a corpus.
/// </summary>
internal sealed class HarpFinder(ImmutableArray<HeardKey> keys)
{
    private const double NotOnIt = 0.004, MostOfOne = 1.4, NotOneBreath = 0.03, Doubt = 0.15, Weight = 0.8;

    /// <summary>How often each position (1–12) is played; the rest share what is left.</summary>
    private static readonly double[] Positions = [0.34, 0.38, 0.12, 0.03, 0.03, 0.01, 0.01, 0.01, 0.01, 0.01, 0.02, 0.04];

    public Distribution<HeardHarp> Rank(ImmutableArray<HeardLineNote> notes)
    {
        var breaths = BreathGroups.Of(notes);
        var scored = Harmonica.UsualKeys.Select(key => Weigh(Harmonica.Richter(key), breaths)).ToArray();
        var posteriors = Softmax.Of([.. scored.Select(s => s.Score)]);
        return new([.. scored.Zip(posteriors, (s, p) => new Candidate<HeardHarp>(s.Harp, p, s.Evidence))]);
    }

    public static double ChanceOf(HarpNote note) => note switch
    {
        { Bend: > 0 } => 0.01,
        { Bend: 0, Hole: <= 6 } => 1,
        { Bend: 0 } => 0.5,
        { Bend: -1, Hole: <= 6 } => 0.2,
        { Bend: -2, Hole: <= 6 } => 0.14,
        { Bend: -3 } => 0.06,
        _ => 0.03,
    };

    private (double Score, HeardHarp Harp, string Evidence) Weigh(Harmonica harp, List<HeardLineNote[]> breaths)
    {
        var (fit, plain, bent, missing) = (0.0, 0, 0, 0);
        foreach (var note in breaths.SelectMany(b => b))
        {
            var ways = harp.NotesFor(note.Midi);
            fit += note.Confidence * Math.Log(Math.Clamp(ways.Sum(ChanceOf), NotOnIt, MostOfOne));
            (plain, bent, missing) = ways.Any(w => w.Bend == 0) ? (plain + 1, bent, missing)
                : ways.Any(w => w.Bend < 0) ? (plain, bent + 1, missing) : (plain, bent, missing + 1);
        }
        var together = breaths.Where(b => b.Length > 1).ToArray();
        var onOneBreath = together.Count(b => BreathGroups.OnOneBreath(harp, b).Count > 0);
        fit += (together.Length - onOneBreath) * Math.Log(NotOneBreath);
        var (position, prior) = Position(harp);
        return (Weight * fit + Math.Log(prior), new(harp.Key, position), Evidence(position, plain, bent, missing, onOneBreath, together.Length));
    }

    private (int Position, double Prior) Position(Harmonica harp)
    {
        var length = keys.Sum(k => (k.End - k.Start).Value) + 1e-9;
        var share = new double[13];
        foreach (var key in keys)
        {
            foreach (var candidate in key.Key.Candidates)
                share[harp.PositionFor(candidate.Value.Tonic)] += candidate.Confidence * (key.End - key.Start).Value / length;
        }
        var prior = Doubt / 12 + (1 - Doubt) * Enumerable.Range(1, 12).Sum(p => share[p] * Positions[p - 1]);
        return (Array.IndexOf(share, share.Max()) is > 0 and var best ? best : 1, prior);
    }

    private static string Evidence(int position, int plain, int bent, int missing, int oneBreath, int together) => string.Create(CultureInfo.InvariantCulture,
        $"position {position}; {plain} plain notes, {bent} bent, {missing} that it hasn't "
            + $"got{(together == 0 ? "" : $"; {oneBreath} of {together} double notes on one breath")}");
}
