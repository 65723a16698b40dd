using System.Diagnostics;
using Harkbook.Units;

namespace Harkbook.App.Messages;

/// <summary>
/// Shows long work on the error stream: a bar where a person watches, one line a step in a log. Nothing goes to the
/// output stream, which stays for results.
/// </summary>
internal sealed class StepProgress : IProgress<Progress>
{
    private readonly string name;
    private readonly bool live = !Console.IsErrorRedirected;
    private readonly Stopwatch watch = Stopwatch.StartNew();
    private string step = "";
    private int percent = -1;

    public StepProgress(string name) => this.name = name;

    public void Report(Progress value)
    {
        lock (watch)
        {
            var now = (int)Math.Round(value.Done * 100);
            if (value.Step == step && (!live || now == percent))
                return;
            (step, percent) = (value.Step, now);
            if (live)
                Console.Error.Write($"\r{name}: {now,3}% {step,-40}");
            else
                Console.Error.WriteLine($"{name}: {step}");
        }
    }

    /// <summary>Ends the line and says how long it took, where there was anything to do.</summary>
    public void Done()
    {
        if (step.Length == 0)
            return;
        if (live)
            Console.Error.WriteLine($"\r{name}: done in {watch.Elapsed.TotalSeconds:0.0} s{"",-40}");
        else
            Console.Error.WriteLine($"{name}: done in {watch.Elapsed.TotalSeconds:0.0} s");
    }
}
