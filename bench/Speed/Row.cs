namespace Harkbook.Bench.Speed;

/// <summary>One measurement.</summary>
/// <param name="Ratio">How many times as fast as the table's reference.</param>
internal sealed record Row(string What, string Result, double? Ratio);
