using Harkbook.Training.NoteWeights;

if (args.Length < 3)
{
    Console.Error.WriteLine("Usage: FONT.sf2 WORKFOLDER WEIGHTS.txt [clips=90] [units=32] [passes=11] [seed=21]");
    return 1;
}
int Number(int place, int otherwise) => args.Length > place ? int.Parse(args[place]) : otherwise;
var (clips, units, passes, seed) = (Number(3, 90), Number(4, 32), Number(5, 11), Number(6, 21));
Directory.CreateDirectory(args[1]);
var font = new FontSound(args[0], args[1]);
var random = new Random(seed);
var examples = Enumerable.Range(0, clips).SelectMany(i => Examples.Of(Clip.Make(i, seed, font), random)).ToArray();
var (mean, scale) = Standard.Of(examples);
Console.WriteLine($"{examples.Length} examples from {clips} clips");
var layer = new Layer(mean.Length, units, new Random(1));
for (var pass = 0; pass < passes; pass++)
{
    var rate = pass < 0.6 * passes ? 2e-3f : pass < 0.85 * passes ? 7e-4f : 2e-4f;
    Console.WriteLine($"pass {pass + 1} of {passes}: loss {layer.Pass(examples, rate, random):F4}");
}
using var writer = File.CreateText(args[2]);
layer.Write(writer, mean, scale);
return 0;
