using Harkbook.Listening.Checking;

namespace Harkbook.Bench.Planted;

/// <summary>A claim of a right transcription.</summary>
internal sealed record RightRow(string Group, string Name, Finding Finding);
