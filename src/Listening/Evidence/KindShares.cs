using Harkbook.Listening.Estimators.SecondInstrument;

namespace Harkbook.Listening.Evidence;

/// <summary>A number for each of <see cref="LineNetwork.Kinds"/>.</summary>
internal readonly record struct KindShares(float Reed, float Voice, float Blown, float Bowed)
{
    public float Sum => Reed + Voice + Blown + Bowed;

    public float this[int kind] => kind switch { 0 => Reed, 1 => Voice, 2 => Blown, _ => Bowed };

    /// <summary>How differently two are shared out: 0 alike, 1 nothing in common.</summary>
    public double DistanceTo(KindShares other)
    {
        var (a, b) = (this * (1 / (Sum + 1e-9f)), other * (1 / (other.Sum + 1e-9f)));
        return 0.5 * (Math.Abs(a.Reed - b.Reed) + Math.Abs(a.Voice - b.Voice) + Math.Abs(a.Blown - b.Blown) + Math.Abs(a.Bowed - b.Bowed));
    }

    public static KindShares operator +(KindShares a, KindShares b) => new(a.Reed + b.Reed, a.Voice + b.Voice, a.Blown + b.Blown, a.Bowed + b.Bowed);

    public static KindShares operator *(KindShares a, float factor) => new(a.Reed * factor, a.Voice * factor, a.Blown * factor, a.Bowed * factor);
}
