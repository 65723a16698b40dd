using System.Diagnostics;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Music.Instruments;
using Harkbook.Training.Fretting;

var mode = args.ElementAtOrDefault(0) ?? "strings";
int Number(int place, int otherwise) => args.Length > place ? int.Parse(args[place]) : otherwise;
var (count, seed) = (mode is "reference" or "heard" ? 0 : Number(1, 60), mode is "reference" or "heard" ? 1 : Number(2, 1));
var tunings = TuningCatalogue.All.Where(t => t.Instrument == TuningCatalogue.Guitar && t.Name != "high-strung").ToArray();
MadePiece Piece(int i, double length)
{
    var random = new Random(seed * 7919 + i);
    return Player.Play(tunings[i % tunings.Length], random.NextDouble() < 0.5 ? 0 : random.Next(1, 6), length, seed * 100_003 + i);
}
switch (mode)
{
    case "strings":
        StringTrial.Run(count, Piece);
        break;
    case "weights":
        WeightFit.Run(count, Number(3, 200), Piece);
        break;
    case "tunings":
        TuningTrial.Run(count, Number(3, 60), Piece, Number(4, 0) / 100.0, args.Length > 5);
        break;
    case "tuning-weights":
        TuningWeightFit.Run(count, Piece);
        break;
    case "shapes":
        ShapeTrial.Run(count, Piece, args.Length > 3);
        break;
    case "heard":
        ReferenceTrial.RunHeard(args[1], args[2]);
        break;
    case "reference":
        ReferenceTrial.Run(args[1], args.Length > 2);
        break;
}
