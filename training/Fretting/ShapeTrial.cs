using System.Collections.Immutable;
using Harkbook.Audio.Recordings;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Listening.Proposing;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>For how much of the time the proposed shape is the one played, string by string, with tuning and chords given.</summary>
internal static class ShapeTrial
{
    public static void Run(int count, Func<int, double, MadePiece> make, bool print)
    {
        var byStyle = new SortedDictionary<string, (double Right, double All)>();
        for (var i = 0; i < count; i++)
        {
            var piece = make(i, 60);
            if (piece.Chords.Count == 0)
                continue;
            var (heard, _) = Mishearing.Of(piece.Notes, new Random(i), 1);
            var guitar = new HeardTuning(piece.Tuning, piece.Capo, piece.Name);
            var hearing = HearingOf(piece, new FrettingEstimator().Estimate(heard, guitar), guitar);
            var song = SongProposer.Propose(hearing, "made", "made.wav");
            var shapes = song.Shapes.ToDictionary(s => s.Name, s => s.Shape.WithoutFingers());
            foreach (var chord in piece.Chords.Where(c => !c.OnlyMeant))
            {
                var found = shapes.GetValueOrDefault(ChordSymbol.Write(chord.Chord));
                var style = piece.Style.Split(',')[0];
                var right = found == chord.Shape.WithoutFingers() ? chord.End - chord.Start : 0;
                byStyle[style] = (byStyle.GetValueOrDefault(style).Right + right, byStyle.GetValueOrDefault(style).All + chord.End - chord.Start);
                byStyle["all"] = (byStyle.GetValueOrDefault("all").Right + right, byStyle.GetValueOrDefault("all").All + chord.End - chord.Start);
                if (print && right == 0)
                    Console.WriteLine($"{piece.Name} capo {piece.Capo} {piece.Style}: {chord.Chord} played {chord.Shape.WithoutFingers()} found {found}");
            }
        }
        foreach (var (style, (right, all)) in byStyle)
            Console.WriteLine($"{style,-20} {right / all:0.000} of {all:0} s");
    }

    private static Hearing HearingOf(MadePiece piece, ImmutableArray<HeardNote> notes, HeardTuning guitar) => new()
    {
        Recording = new("made.wav", SampleRate.FromHertz(44100), 1, Seconds.FromSeconds(piece.Length), new string('a', 64), "WAV"),
        ReferencePitch = new(new Candidate<Hertz>(Hertz.A440, 1)),
        Tempo = new(new Candidate<double>(120, 1)),
        Meter = new(new Candidate<Meter>(Meter.Parse("4/4"), 1)),
        Beats = [.. Enumerable.Range(0, (int)(piece.Length * 4)).Select(i => new HeardBeat(Seconds.FromSeconds(0.25 * i), i % 4 + 1, 1))],
        Keys = [new(Seconds.FromSeconds(0), Seconds.FromSeconds(piece.Length), new(new Candidate<Key>(piece.Key, 1)))],
        Notes = notes,
        Evidence = new(Seconds.FromSeconds(0.1), 36, new float[0, 60], new float[0, 60]),
        Chords = [.. piece.Chords.Select(c => new HeardChord(Seconds.FromSeconds(c.Start), Seconds.FromSeconds(c.End), new(new Candidate<Chord>(c.Chord, 1))))],
        Sections = [],
        Tuning = new(new Candidate<HeardTuning>(guitar, 1)),
    };
}
