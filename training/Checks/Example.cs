using Harkbook.Listening.Checking.Weighing;

namespace Harkbook.Training.Checks;

/// <summary>A claim with what speaks for and against it, and whether it is right.</summary>
/// <param name="Weigher">Whose weights it fits.</param>
/// <param name="Error">What was planted; empty where the claim is right.</param>
internal sealed record Example(string Weigher, string Piece, string Error, Feature[] Features)
{
    public bool IsRight => Error.Length == 0;
}
