namespace Harkbook.Audio.Tests;

/// <summary>Tests that ask for the whole process's memory, so that no other test may run beside them.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;
