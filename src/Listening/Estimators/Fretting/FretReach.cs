using Harkbook.Music.Instruments.Hands;

namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>How far a hand reaches along the neck, in frets from where its index finger is.</summary>
/// <param name="Behind">Frets that the index finger stretches back.</param>
/// <param name="Free">The furthest that is no stretch: a usual hand's four fingers have four frets.</param>
/// <param name="Stretched">The furthest with a stretch.</param>
internal readonly record struct FretReach(int Behind, int Free, int Stretched)
{
    public static FretReach Of(Hand hand) => new(hand.FretsWhereUsual(1), hand.FretsWhereUsual(3), hand.FretsWhereUsual(4));

    public bool Holds(int offset) => offset >= -Behind && offset <= Stretched;

    public bool IsStretch(int offset) => offset < 0 || offset > Free;
}
