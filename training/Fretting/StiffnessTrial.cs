using Harkbook.Audio.Signals;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>What is seen of a note whose string is known.</summary>
/// <param name="LogB">The truth.</param>
/// <param name="Rivals">What each string that has the pitch would say; the first is the true one.</param>
internal sealed record StiffnessCase(List<PartialPeaks> Partials, int Others, double LogB, double[] Rivals, int Midi, double Length);

/// <summary>How well the stiffness of notes with known onset, end and pitch is measured, and the fit of what that hangs on.</summary>
internal static class StiffnessTrial
{
    public static void Run(int count, Func<int, (MadePiece Piece, ThrownGuitar Guitar, float[] Sound)> make, int rounds)
    {
        var cases = Enumerable.Range(0, count).AsParallel().WithDegreeOfParallelism(2).SelectMany(i => Cases(make(i))).ToArray();
        var model = StiffnessModel.Shipped.Partials;
        Report(cases, model);
        for (var round = 0; round < rounds; round++)
            model = Improved(cases, model, round == 0 ? 1.5 : 1.2);
        Console.WriteLine(System.Text.Json.JsonSerializer.Serialize(model, new System.Text.Json.JsonSerializerOptions(System.Text.Json.JsonSerializerDefaults.Web)));
        if (rounds > 0)
            Report(cases, model);
    }

    public static IEnumerable<StiffnessCase> Cases((MadePiece Piece, ThrownGuitar Guitar, float[] Sound) made)
    {
        var (piece, guitar, sound) = made;
        var finder = new NotePartials(new Signal(SampleRate.FromHertz(22_050), sound), Hertz.A440);
        HeardNote[] notes = [.. piece.Notes.Select(n => new HeardNote(n.Midi, Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End), 1, n.Strength))];
        int[] open = [.. piece.Tuning.Strings.Select(s => s.Midi + piece.Capo.Fret)];
        for (var i = 0; i < notes.Length; i++)
        {
            var note = piece.Notes[i];
            var others = notes.Where((o, j) => j != i && o.Onset.Value < notes[i].Onset.Value + Math.Min(NotePartials.LongestLook, note.End - note.Onset) && o.End.Value > note.Onset + 0.03).ToArray();
            var partials = finder.Of(notes[i], others);
            if (partials.Count == 0)
                continue;
            double[] rivals = [guitar.LogB(note.StringIndex, note.Fret), .. Enumerable.Range(0, open.Length)
                .Where(s => s != note.StringIndex && note.Midi - open[s] is >= 0 and <= 15).Select(s => guitar.LogB(s, note.Midi - open[s]))];
            yield return new(partials, others.Length, rivals[0], rivals, note.Midi, note.End - note.Onset);
        }
    }

    private static void Report(StiffnessCase[] cases, StiffnessModel.OfPartials model)
    {
        var scored = cases.AsParallel().AsOrdered().WithDegreeOfParallelism(2).Select(c => (Case: c, Score: Score(c, model))).ToArray();
        Table("others", c => c.Others switch { 0 => "0", 1 => "1", <= 3 => "2-3", <= 5 => "4-5", _ => "6+" });
        Table("register", c => c.Midi switch { < 50 => "below D3", < 57 => "D3 to G#3", < 64 => "A3 to D#4", < 71 => "E4 to A#4", _ => "from B4" });
        Table("length", c => c.Length switch { < 0.15 => "0.10", < 0.25 => "0.15", < 0.4 => "0.25", < 0.7 => "0.4", _ => "0.7+" });
        Table("all", _ => "all");

        void Table(string name, Func<StiffnessCase, string> of)
        {
            foreach (var group in scored.GroupBy(s => of(s.Case)).OrderBy(g => g.Key))
                Console.WriteLine($"{name} {group.Key}: {group.Count()} notes, log density {group.Average(s => s.Score.Density):0.000}, string {group.Where(s => s.Case.Rivals.Length > 1).Select(s => s.Score.Right).DefaultIfEmpty().Average():0.000} of {group.Count(s => s.Case.Rivals.Length > 1)}, log {group.Where(s => s.Case.Rivals.Length > 1).Select(s => s.Score.LogRight).DefaultIfEmpty().Average():0.000} (even {group.Where(s => s.Case.Rivals.Length > 1).Select(s => -Math.Log(s.Case.Rivals.Length)).DefaultIfEmpty().Average():0.000}), off {group.Select(s => Math.Abs(s.Score.Off)).Order().ElementAt(group.Count() / 2):0.00}");
        }
    }

    private static (double Density, double Right, double LogRight, double Off) Score(StiffnessCase c, StiffnessModel.OfPartials model)
    {
        Span<double> logs = stackalloc double[StiffnessGrid.Count];
        new StiffnessLikelihood(model).Weigh(c.Partials, c.Others, logs);
        var all = logs.ToArray();
        var total = Math.Log(all.Sum(Math.Exp));
        var rivals = c.Rivals.Select(r => At(all, r)).ToArray();
        var best = Array.IndexOf(all, all.Max());
        return (At(all, c.LogB) - total, rivals[0] >= rivals.Max() ? 1 : 0, rivals[0] - Math.Log(rivals.Sum(Math.Exp)), StiffnessGrid.At(best) - c.LogB);
    }

    public static double At(ReadOnlySpan<double> logs, double logB)
    {
        var place = Math.Clamp(StiffnessGrid.PlaceOf(logB), 0, StiffnessGrid.Count - 1.001);
        var (step, part) = ((int)place, place - (int)place);
        return logs[step] * (1 - part) + logs[step + 1] * part;
    }

    private static double Worth(StiffnessCase[] cases, StiffnessModel.OfPartials model) =>
        cases.AsParallel().WithDegreeOfParallelism(2).Select(c => Score(c, model)).Average(s => s.Density + 2 * s.LogRight);

    /// <summary>Each number in turn larger or smaller, where that says more of the truth.</summary>
    private static StiffnessModel.OfPartials Improved(StiffnessCase[] cases, StiffnessModel.OfPartials model, double step)
    {
        var best = Worth(cases, model);
        foreach (var property in typeof(StiffnessModel.OfPartials).GetProperties().Where(p => p.CanWrite && p.PropertyType == typeof(double)))
        {
            foreach (var factor in new[] { step, 1 / step })
            {
                var improved = false;
                for (; ; improved = true)
                {
                    var tried = model with { };
                    var value = (double)property.GetValue(model)! * factor;
                    property.SetValue(tried, property.Name == "Shown" ? Math.Min(0.98, value) : value);
                    var worth = Worth(cases, tried);
                    if (worth < best + 1e-4)
                        break;
                    (model, best) = (tried, worth);
                }
                if (improved)
                    break;
            }
        }
        Console.WriteLine($"{best:0.0000}");
        return model;
    }
}
