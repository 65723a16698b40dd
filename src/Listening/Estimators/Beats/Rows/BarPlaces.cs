namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>How the places in a bar follow one another: the nine of <see cref="BarModel"/>, or a single one where bars aren't looked at.</summary>
internal sealed record BarPlaces(int[] Before, int[] After, int[] Downbeats)
{
    public static BarPlaces None { get; } = new([0], [0], []);

    public static BarPlaces Bars { get; } = new(
        [.. Enumerable.Range(0, BarModel.Places).Select(BarModel.Before)],
        [.. Enumerable.Range(0, BarModel.Places).Select(BarModel.After)],
        BarModel.Downbeats);

    public int Count => Before.Length;
}
