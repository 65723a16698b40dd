using Harkbook.Listening;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Listening.Proposing;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>For how much of the time the proposed shape is the one played, string by string, with the tuning given, and the chords too or as heard.</summary>
internal static class ShapeTrial
{
    public static void Run(int count, Func<int, (MadePiece Piece, Hearing Heard)> hear, bool chordsGiven, bool print)
    {
        var byStyle = new SortedDictionary<string, (double Right, double All)>();
        for (var i = 0; i < count; i++)
        {
            var (piece, heard) = hear(i);
            if (piece.Chords.All(c => c.OnlyMeant))
                continue;
            var guitar = new HeardTuning(piece.Tuning, piece.Capo, piece.Name);
            var hearing = heard with { Notes = new FrettingEstimator().Estimate(heard.Notes, guitar), Tuning = new(new Candidate<HeardTuning>(guitar, 1)) };
            if (chordsGiven)
                hearing = hearing with { Chords = [.. piece.Chords.Select(c => new HeardChord(Seconds.FromSeconds(c.Start), Seconds.FromSeconds(c.End), new(new Candidate<Chord>(c.Chord, 1))))] };
            var shapes = SongProposer.Propose(hearing, "made", "made.wav").Shapes.ToDictionary(s => s.Name, s => s.Shape.WithoutFingers());
            foreach (var chord in piece.Chords.Where(c => !c.OnlyMeant))
            {
                var name = chordsGiven ? chord.Chord : hearing.Chords.FirstOrDefault(c => c.End.Value > (chord.Start + chord.End) / 2)?.Chord.Best ?? Chord.None;
                var found = shapes.GetValueOrDefault(ChordSymbol.Write(name));
                var right = found == chord.Shape.WithoutFingers() ? chord.End - chord.Start : 0;
                foreach (var style in new[] { piece.Style.Split(',')[0], "all" })
                    byStyle[style] = (byStyle.GetValueOrDefault(style).Right + right, byStyle.GetValueOrDefault(style).All + chord.End - chord.Start);
                if (print && right == 0)
                    Console.WriteLine($"{i} {piece.Name} capo {piece.Capo} {piece.Style}: {chord.Chord} played {chord.Shape.WithoutFingers()} found {found}");
            }
        }
        foreach (var (style, (right, all)) in byStyle)
            Console.WriteLine($"{style,-20} {right / all:0.000} of {all:0} s");
    }
}
