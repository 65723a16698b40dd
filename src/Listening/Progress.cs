namespace Harkbook.Listening;

/// <summary>How far long work has come.</summary>
/// <param name="Step">What is being done, in a few words: "finding beats".</param>
/// <param name="Done">0 to 1 of the whole work.</param>
public readonly record struct Progress(string Step, double Done);
