using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Keys;

/// <summary>One of the 24 major and minor keys by number: 0–11 major from C up, 12–23 minor.</summary>
internal readonly record struct KeyCandidate(int Index)
{
    public const int Count = 24;

    public static IEnumerable<KeyCandidate> All => Enumerable.Range(0, Count).Select(i => new KeyCandidate(i));

    /// <summary>The one of a key's tonic and third.</summary>
    public static KeyCandidate Of(Key key) => new(key.Tonic.PitchClass + (key.Mode.IsMinor ? 12 : 0));

    public int Tonic => Index % 12;

    public bool IsMinor => Index >= 12;

    public Mode Mode => IsMinor ? Mode.Minor : Mode.Major;

    /// <summary>This tonic in a mode, named as its major or minor key usually is.</summary>
    public Key In(Mode mode) => new(KeyProfile.TonicName(Tonic, Mode), mode);

    public bool IsRelativeOf(KeyCandidate other) =>
        IsMinor != other.IsMinor && (IsMinor ? (Tonic + 3) % 12 == other.Tonic : (other.Tonic + 3) % 12 == Tonic);
}
