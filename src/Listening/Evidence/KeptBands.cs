namespace Harkbook.Listening.Evidence;

/// <summary>Bands of a sound that were measured once, in steps of 1/4096. An hour takes 37 MB.</summary>
internal sealed class KeptBands : IPulseBands
{
    private const float Steps = 4096;
    private const int Piece = 2048;

    private readonly ushort[] values;

    private KeptBands(ushort[] values) => this.values = values;

    public static KeptBands None { get; } = new([]);

    public int Frames => values.Length / PulseBands.Count;

    /// <summary>As they are kept, row by row.</summary>
    internal ReadOnlyMemory<ushort> Values => values;

    public static KeptBands Of(IPulseBands bands, CancellationToken cancellation)
    {
        var values = new ushort[bands.Frames * PulseBands.Count];
        var rows = new float[Math.Min(Piece, bands.Frames) * PulseBands.Count];
        for (var first = 0; first < bands.Frames; first += Piece)
        {
            var frames = Math.Min(Piece, bands.Frames - first);
            bands.Fill(first, frames, rows.AsMemory(0, frames * PulseBands.Count), cancellation);
            for (var i = 0; i < frames * PulseBands.Count; i++)
                values[first * PulseBands.Count + i] = (ushort)Math.Clamp(rows[i] * Steps + 0.5f, 0, ushort.MaxValue);
        }
        return new(values);
    }

    /// <param name="values">Of <see cref="Values"/>.</param>
    internal static KeptBands OfValues(ushort[] values) =>
        values.Length % PulseBands.Count == 0 ? new(values) : throw new FormatException($"{values.Length} values are no rows of {PulseBands.Count}.");

    public void Fill(int first, int frames, Memory<float> into, CancellationToken cancellation) => Fill(first, frames, into.Span, PulseBands.Count);

    public void FillMoments(int first, int frames, Memory<float> into, CancellationToken cancellation) =>
        Fill(first, frames, into.Span, PulseBands.Moments.Bands);

    private void Fill(int first, int frames, Span<float> into, int width)
    {
        for (var f = 0; f < frames; f++)
        {
            var row = values.AsSpan((first + f) * PulseBands.Count, width);
            for (var b = 0; b < width; b++)
                into[f * width + b] = row[b] / Steps;
        }
    }
}
