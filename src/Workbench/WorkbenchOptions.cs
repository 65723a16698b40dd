namespace Harkbook.Workbench;

/// <summary>How a workbench is opened.</summary>
/// <param name="Folder">The songbook's; it is there.</param>
/// <param name="Port">0 for any that is free.</param>
public sealed record WorkbenchOptions(string Folder, int Port = 0)
{
    public TimeProvider Clock { get; init; } = TimeProvider.System;
}
