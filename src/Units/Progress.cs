namespace Harkbook.Units;

/// <summary>How far long work has come.</summary>
/// <param name="Step">What is being done, in a few words: "finding beats".</param>
/// <param name="Done">0 to 1 of the whole work.</param>
public readonly record struct Progress(string Step, double Done)
{
    /// <summary>For a step that tells only its own 0 to 1, which is from one point of the whole work to another.</summary>
    /// <returns>Null where nobody listens.</returns>
    public static IProgress<double>? Within(IProgress<Progress>? whole, string step, double from, double to) =>
        whole is null ? null : new Share(whole, step, from, to);

    private sealed class Share(IProgress<Progress> whole, string step, double from, double to) : IProgress<double>
    {
        public void Report(double value) => whole.Report(new(step, from + (to - from) * value));
    }
}
