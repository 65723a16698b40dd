namespace Harkbook.Listening.Reading.Lattices;

/// <summary>A path through a lattice: its state at each step, and the sum of all log scores along it.</summary>
internal sealed record LatticePath(int[] States, double Score);
