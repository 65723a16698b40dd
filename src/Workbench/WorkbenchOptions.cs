using Harkbook.Units;

namespace Harkbook.Workbench;

/// <summary>How a workbench is opened.</summary>
/// <param name="Folder">The songbook's; it is there.</param>
/// <param name="Port">0 for any that is free.</param>
public sealed record WorkbenchOptions(string Folder, int Port = 0)
{
    /// <summary>Makes an invented songbook in a folder; null where none is offered.</summary>
    public Func<string, IProgress<Progress>, CancellationToken, Task>? MakeInvented { get; init; }

    public TimeProvider Clock { get; init; } = TimeProvider.System;
}
