using System.Diagnostics;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Training.Fretting;

var mode = args.ElementAtOrDefault(0) ?? "strings";
int Number(int place, int otherwise) => args.Length > place ? int.Parse(args[place]) : otherwise;
var (count, seed) = (mode is "reference" or "heard" or "reference-stiffness" or "guitars" or "kept" ? 0 : Number(1, 60), mode is "reference" or "heard" or "reference-stiffness" or "guitars" or "kept" ? 1 : Number(2, 1));
var tunings = TuningCatalogue.All.Where(t => t.Instrument == TuningCatalogue.Guitar && t.Name != "high-strung").ToArray();
MadePiece Piece(int i, double length)
{
    var random = new Random(seed * 7919 + i);
    return Player.Play(tunings[i % tunings.Length], random.NextDouble() < 0.5 ? 0 : random.Next(1, 6), length, seed * 100_003 + i);
}
MadePiece Busked(int i, double length) => BuskedOf(seed, i, length);
MadePiece BuskedOf(int seed, int i, double length)
{
    var random = new Random(seed * 6007 + i);
    return Busker.Play(tunings[i % tunings.Length], random.NextDouble() < 0.5 ? 0 : random.Next(1, 6), length, seed * 100_019 + i);
}
MadePiece Free(int i, double length)
{
    var random = new Random(seed * 4001 + i);
    return Busker.Play(Retuned.Of(tunings[i % tunings.Length], random), random.NextDouble() < 0.6 ? 0 : random.Next(1, 6), length, seed * 100_043 + i);
}
MadePiece Comped(int i, double length)
{
    var random = new Random(seed * 3001 + i);
    return Comper.Play(tunings[i % tunings.Length], random.NextDouble() < 0.6 ? 0 : random.Next(1, 6), length, seed * 100_057 + i);
}
(MadePiece, Hearing) Misheard(int i) => MisheardOf(Piece(i, 60), i);
(MadePiece, Hearing) MisheardOf(MadePiece piece, int i)
{
    return (piece, MadeHearing.Of(piece, Mishearing.Of(piece.Notes, new Random(i), i % 2 == 0 ? 0.4 : 1).Heard, new(Tuning.Standard, Capo.None, "standard")));
}
RenderedPiece Rendered() => new(args[3], ["/usr/share/sounds/sf2/FluidR3_GM.sf2", "/usr/share/sounds/sf2/TimGM6mb.sf2"]);
(MadePiece, Hearing) Heard(int i)
{
    var piece = Busked(i, 60);
    return (piece, Rendered().Hear(piece, i, seed));
}
// Strings from formulas: Player, Busker and Comper in turn, each with one tuning after another.
(MadePiece, ThrownGuitar, float[]) Strung(int i, double length)
{
    return OnStrings(StrungPieceOf(i, length), new Random(seed * 9007 + i));
}
(MadePiece, ThrownGuitar, float[]) OnStrings(MadePiece piece, Random random)
{
    var guitar = new ThrownGuitar(random, piece.Tuning, piece.Capo);
    return (piece, guitar, StiffSound.Of(piece, guitar, random));
}
(MadePiece, HeardStrings) StrungHeard(int i) => (StrungPieceOf(i, 25), new StrungPiece(args[3]).Hear(() => Strung(i, 25), 25, $"{seed}-{i}"));
IEnumerable<(MadePiece, HeardStrings)> HeardOf(int seed) => Directory.GetFiles(args[3], $"{seed}-*.strung").Select(path => (StrungPieceBy(seed, int.Parse(Path.GetFileNameWithoutExtension(path).Split('-')[^1]), 25), HeardStrings.Read(path)));
MadePiece StrungPieceOf(int i, double length) => StrungPieceBy(seed, i, length);
MadePiece StrungPieceBy(int seed, int i, double length)
{
    var random = new Random(seed * 9001 + i);
    var (tuning, capo, made) = (tunings[i % tunings.Length], random.NextDouble() < 0.5 ? 0 : random.Next(1, 6), seed * 100_069 + i);
    return ((i / tunings.Length + i) % 3) switch { 0 => Player.Play(tuning, capo, length, made), 1 => Busker.Play(tuning, capo, length, made), _ => Comper.Play(tuning, capo, length, made) };
}
switch (mode)
{
    case "strung":
        double[] Each(int place, string otherwise) => [.. (args.ElementAtOrDefault(place) ?? otherwise).Split(',').Select(w => double.Parse(w, System.Globalization.CultureInfo.InvariantCulture))];
        StrungTrial.Run(count, StrungHeard, Each(4, "0,0.5"), args.Length > 5);
        break;
    case "strung-hear":
        Parallel.For(0, count, i => StrungHeard(i));
        break;
    case "kept":
        foreach (var path in args.Skip(1))
            await KeptEvidence.TellAsync(path);
        break;
    case "guitars":
        await StiffnessReference.GuitarsAsync(args[1]);
        break;
    case "reference-stiffness":
        await StiffnessReference.RunAsync(args[1], args[2], args.ElementAtOrDefault(3));
        break;
    case "stiffness":
        StiffnessTrial.Run(count, i => Strung(i, 20), Number(3, 0));
        break;
    case "listen":
        for (var i = Number(4, 0); i < count; i += Number(5, 1))
        {
            var watch = Stopwatch.StartNew();
            var (piece, hearing) = Heard(i);
            Console.WriteLine($"{i} {piece.Name} {piece.Capo} {piece.Key} {piece.Style} notes {piece.Notes.Count} heard {hearing.Notes.Length} {watch.Elapsed.TotalSeconds:0.0} s");
        }
        break;
    case "hearing":
        HeardTrial.Run(count, Heard);
        break;
    case "strings":
        StringTrial.Run(count, Misheard, args.Length > 3);
        break;
    case "weights":
        WeightFit.Run(count, Number(3, 200), Piece);
        break;
    case "tunings":
        TuningTrial.Run(count, Misheard, Number(3, 0) / 100.0, args.Length > 4);
        break;
    case "closed-tunings":
        // What closed chords say: all in standard tuning without a capo, as most such playing is.
        TuningTrial.Run(count, i => MisheardOf(Comper.Play(tunings.Single(t => t.Name == "standard"), 0, 40, seed * 100_057 + i), i), Number(3, 0) / 100.0, args.Length > 4);
        break;
    case "heard-tunings":
        TuningTrial.Run(count, Heard, Number(4, 0) / 100.0, args.Length > 5);
        break;
    case "twins":
        Twins.Run(count, i => Busked(i, 60));
        break;
    case "tuning-weights":
        TuningWeightFit.Run(count, args[4], [Piece, Busked, Free, Comped], [.. Enumerable.Range(Number(5, 100), Number(6, 16)).SelectMany(HeardOf)]);
        break;
    case "shapes":
        ShapeTrial.Run(count, Misheard, chordsGiven: true, args.Length > 3);
        break;
    case "heard-strings":
        StringTrial.Run(count, Heard, args.Length > 4);
        break;
    case "heard-shapes":
        ShapeTrial.Run(count, Heard, Number(4, 1) == 1, args.Length > 5);
        break;
    case "heard":
        ReferenceTrial.RunHeard(args[1], args[2]);
        break;
    case "reference":
        ReferenceTrial.Run(args[1], args.Length > 2);
        break;
}
