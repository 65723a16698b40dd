namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>A number for each of <see cref="LineNetwork.Kinds"/>.</summary>
internal readonly record struct KindShares(float Reed, float Voice, float Blown, float Bowed)
{
    public float Sum => Reed + Voice + Blown + Bowed;

    public float this[int kind] => kind switch { 0 => Reed, 1 => Voice, 2 => Blown, _ => Bowed };

    public static KindShares operator +(KindShares a, KindShares b) => new(a.Reed + b.Reed, a.Voice + b.Voice, a.Blown + b.Blown, a.Bowed + b.Bowed);

    public static KindShares operator *(KindShares a, float factor) => new(a.Reed * factor, a.Voice * factor, a.Blown * factor, a.Bowed * factor);
}
