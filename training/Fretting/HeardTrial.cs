using Harkbook.Listening;

namespace Harkbook.Training.Fretting;

/// <summary>What listening makes of rendered notes, for setting how <see cref="Mishearing"/> errs.</summary>
internal static class HeardTrial
{
    public static void Run(int count, Func<int, (MadePiece Piece, Hearing Heard)> hear)
    {
        var (plain, plainFound, masked, maskedFound, unison, unisonFound, invented, overtones, all) = (0, 0, 0, 0, 0, 0, 0, 0, 0);
        var (shift, ends, confidence, wrongConfidence) = (new List<double>(), new List<double>(), new List<double>(), new List<double>());
        for (var i = 0; i < count; i++)
        {
            var (piece, heard) = hear(i);
            var taken = new bool[heard.Notes.Length];
            foreach (var note in piece.Notes)
            {
                var together = piece.Notes.Where(o => o != note && Math.Abs(o.Onset - note.Onset) < 0.06).ToArray();
                var isUnison = together.Any(o => o.Midi == note.Midi);
                var isMasked = together.Any(o => note.Midi - o.Midi is 12 or 19 or 24);
                var found = Enumerable.Range(0, taken.Length).FirstOrDefault(n => !taken[n] && heard.Notes[n].Midi == note.Midi && Math.Abs(heard.Notes[n].Onset.Value - note.Onset) < 0.05, -1);
                if (found >= 0)
                {
                    taken[found] = true;
                    shift.Add(heard.Notes[found].Onset.Value - note.Onset);
                    ends.Add((heard.Notes[found].End.Value - note.Onset) / (note.End - note.Onset));
                    confidence.Add(heard.Notes[found].Confidence);
                }
                var hit = found >= 0 ? 1 : 0;
                if (isUnison)
                    (unison, unisonFound) = (unison + 1, unisonFound + hit);
                else if (isMasked)
                    (masked, maskedFound) = (masked + 1, maskedFound + hit);
                else
                    (plain, plainFound) = (plain + 1, plainFound + hit);
            }
            for (var n = 0; n < taken.Length; n++)
            {
                all++;
                if (taken[n])
                    continue;
                invented++;
                wrongConfidence.Add(heard.Notes[n].Confidence);
                overtones += piece.Notes.Any(o => o.Onset < heard.Notes[n].Onset.Value + 0.05 && o.End > heard.Notes[n].Onset.Value - 0.05 && Math.Abs(heard.Notes[n].Midi - o.Midi) is 0 or 12 or 19 or 24) ? 1 : 0;
            }
        }
        Console.WriteLine($"plain {(double)plainFound / plain:0.000} of {plain}, masked {(double)maskedFound / masked:0.000} of {masked}, unison {(double)unisonFound / unison:0.000} of {unison}; invented {invented} of {all}, overtones {overtones}");
        Console.WriteLine($"onset mean {shift.Average():0.0000}, spread {Math.Sqrt(shift.Average(x => x * x) - Math.Pow(shift.Average(), 2)):0.0000}; heard length over played, quartiles {Quartiles(ends)}; confidence {Quartiles(confidence)}, of the invented {Quartiles(wrongConfidence)}");
    }

    private static string Quartiles(List<double> values) => string.Join(" ", new[] { 0.05, 0.25, 0.5, 0.75, 0.95 }.Select(q => values.Order().ElementAt((int)(q * (values.Count - 1))).ToString("0.00", System.Globalization.CultureInfo.InvariantCulture)));
}
