namespace Harkbook.Listening.Checking.Weighing;

/// <summary>One thing that speaks for or against a claim.</summary>
internal readonly record struct Feature(string Name, double Value);
