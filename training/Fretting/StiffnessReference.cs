using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.ReferencePitch;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>The stiffness of a recording's annotated notes: judged, never fitted.</summary>
internal static class StiffnessReference
{
    /// <summary>What the notes that are heard say of guitars.</summary>
    public static async Task GuitarsAsync(string recording)
    {
        var evidence = await new Listener().GatherAsync(await RecordingReader.InspectAsync(recording), null, default);
        var notes = new Harkbook.Listening.Estimators.Notes.NotePicker(evidence.Picking).Pick(evidence.Notes);
        var stiff = StiffNotes.Of(evidence.Stiffness, notes);
        var telling = Enumerable.Range(0, notes.Length).Where(stiff.Knows).Select(i => (notes[i].Midi, i)).ToArray();
        Console.WriteLine($"{notes.Length} notes, {telling.Length} tell");
        foreach (var (tuning, found) in TuningCatalogue.All.Where(t => t.Instrument == "guitar").SelectMany(t => Enumerable.Range(0, 7), (t, c) => ($"{t.Name} {c}", StringConstants.Of(stiff, telling, t.Tuning, Capo.At(c)))).OrderByDescending(x => x.Item2.LogLikelihood).Where((x, i) => i < 8 || x.Item1.StartsWith("standard")))
            Console.WriteLine($"{tuning}: {found.LogLikelihood:0.0} {found.Set.Name} " + string.Join(' ', found.AtNut.Select(b => b.ToString("0.00"))));
        var best = StringConstants.Of(stiff, telling, Tuning.Standard, Capo.None);
        Console.WriteLine($"standard: {best.LogLikelihood:0.0} {best.Set.Name} " + string.Join(' ', best.AtNut.Select(b => b.ToString("0.00"))));
        foreach (var (midi, i) in telling.Take(60))
        {
            var logs = evidence.Stiffness.LogsOf(notes[i])!;
            Console.WriteLine($"{notes[i].Onset.Value:0.00} {midi} {(notes[i].End - notes[i].Onset).Value:0.00} best {StiffnessGrid.At(Array.IndexOf(logs, 0f)):0.00}: " + string.Join("  ", Enumerable.Range(0, 6).Where(s => midi >= Tuning.Standard.Strings[s].Midi && midi < Tuning.Standard.Strings[s].Midi + 18).Select(s => $"{s}:{midi - Tuning.Standard.Strings[s].Midi} {best.AtNut[s] + 0.0502 * (midi - Tuning.Standard.Strings[s].Midi):0.00} {best.Of(i, s, midi - Tuning.Standard.Strings[s].Midi):0.00}")));
        }
    }

    /// <summary>log10 of B at the nut by string, a dot a note; the line is what physics gives a light set.</summary>
    private static string Plot((int String, double Best)[] notes)
    {
        var (random, svg) = (new Random(1), new System.Text.StringBuilder("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 560 330\" font-family=\"sans-serif\" font-size=\"12\"><rect width=\"560\" height=\"330\" fill=\"#ffffff\"/>"));
        for (var b = -5.5; b <= -3.2; b += 0.5)
            svg.Append(System.Globalization.CultureInfo.InvariantCulture, $"<line x1=\"50\" x2=\"550\" y1=\"{Y(b):0}\" y2=\"{Y(b):0}\" stroke=\"#dddddd\"/><text x=\"44\" y=\"{Y(b) + 4:0}\" text-anchor=\"end\">{b:0.0}</text>");
        for (var s = 0; s < 6; s++)
        {
            var (x, open) = (90 + 84 * s, Tuning.Standard.Strings[s].Midi);
            var physics = Y(Math.Log10(GaugeSet.All[0].For(s, open).InharmonicityAt(open)));
            svg.Append(System.Globalization.CultureInfo.InvariantCulture, $"<text x=\"{x}\" y=\"320\" text-anchor=\"middle\">{Tuning.Standard.Strings[s]} ({notes.Count(n => n.String == s)})</text><line x1=\"{x - 34}\" x2=\"{x + 34}\" y1=\"{physics:0.0}\" y2=\"{physics:0.0}\" stroke=\"#d55e00\" stroke-width=\"2\"/>");
            foreach (var note in notes.Where(n => n.String == s))
                svg.Append(System.Globalization.CultureInfo.InvariantCulture, $"<circle cx=\"{x + 44 * (random.NextDouble() - 0.5):0.0}\" cy=\"{Y(note.Best) + 3 * (random.NextDouble() - 0.5):0.0}\" r=\"3\" fill=\"#0072b2\" fill-opacity=\"0.45\"/>");
        }
        return svg.Append("</svg>\n").ToString();

        static double Y(double b) => 20 + 280 * (-3.2 - b) / 2.5;
    }

    public static async Task RunAsync(string recording, string truth, string? plot)
    {
        using var sound = await RecordingReader.StoreAsync(await RecordingReader.InspectAsync(recording), SampleRate.FromHertz(22_050), null, default);
        var mono = sound.ToMono();
        var a4 = new ReferencePitchEstimator().Estimate(mono, default).Best;
        var notes = JamsReader.Read(truth).Notes.Where(n => n.StringIndex is not null).ToArray();
        HeardNote[] heard = [.. notes.Select(n => new HeardNote((int)Math.Round(n.Midi), Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End), 1, 0.5))];
        var finder = new NotePartials(mono, a4);
        var likelihood = new StiffnessLikelihood(StiffnessModel.Shipped.Partials);
        var standard = Tuning.Standard.Strings.Select(s => s.Midi).ToArray();
        var measured = heard.Select((note, i) =>
        {
            var others = heard.Where((o, j) => j != i && o.Onset.Value < note.Onset.Value + Math.Min(NotePartials.LongestLook, (note.End - note.Onset).Value) && o.End.Value > note.Onset.Value + 0.03).ToArray();
            var logs = new double[StiffnessGrid.Count];
            var partials = finder.Of(note, others);
            likelihood.Weigh(partials, others.Length, logs);
            var (s, fret) = (notes[i].StringIndex!.Value, note.Midi - standard[notes[i].StringIndex!.Value]);
            return (Logs: logs, String: s, Fret: fret, note.Midi, Best: StiffnessGrid.At(Array.IndexOf(logs, logs.Max())) - fret * Math.Log10(2) / 6, Others: others.Length, Seen: partials.Count > 0);
        }).Where(m => m.Seen && m.Fret >= 0).ToArray();
        foreach (var g in measured.GroupBy(m => m.String).OrderBy(g => g.Key))
        {
            var sorted = g.Select(m => m.Best).Order().ToArray();
            Console.WriteLine($"string {g.Key}: {sorted.Length} notes, median {sorted[sorted.Length / 2]:0.00}, middle half {sorted[sorted.Length / 4]:0.00} … {sorted[3 * sorted.Length / 4]:0.00}");
        }
        if (plot is not null)
            File.WriteAllText(plot, Plot([.. measured.Select(m => (m.String, m.Best))]));
        foreach (var set in GaugeSet.All)
            Judge(set.Name, _ => [.. standard.Select((open, s) => Math.Log10(set.For(s, open).InharmonicityAt(open)))]);
        Judge("own, left out", i => [.. standard.Select((_, s) => measured.Where((m, j) => j != i && m.String == s).Select(m => m.Best).Order().ToArray() is { Length: > 0 } b ? b[b.Length / 2] : -4)]);

        void Judge(string name, Func<int, double[]> constants)
        {
            var (right, log, few, fewRight) = (0, 0.0, 0, 0);
            for (var i = 0; i < measured.Length; i++)
            {
                var open = constants(i);
                var m = measured[i];
                var said = Enumerable.Range(0, 6).Where(s => m.Midi - standard[s] is >= 0 and <= 17)
                    .Select(s => (String: s, Log: StiffnessTrial.At(m.Logs, open[s] + (m.Midi - standard[s]) * Math.Log10(2) / 6))).ToArray();
                var hit = said.MaxBy(x => x.Log).String == m.String;
                right += hit ? 1 : 0;
                few += m.Others <= 2 ? 1 : 0;
                fewRight += m.Others <= 2 && hit ? 1 : 0;
                log += said.First(x => x.String == m.String).Log - Math.Log(said.Sum(x => Math.Exp(x.Log)));
            }
            Console.WriteLine($"{name}: {(double)right / measured.Length:0.000} of {measured.Length}, log {log / measured.Length:0.000}; at most two others {(double)fewRight / few:0.000} of {few}");
        }
    }
}
