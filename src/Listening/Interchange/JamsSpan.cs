namespace Harkbook.Listening.Interchange;

/// <summary>What holds from start to end, in seconds.</summary>
/// <param name="Confidence">0–1; null where nobody told.</param>
internal readonly record struct JamsSpan(double Start, double End, string Value, double? Confidence = null);
