namespace Harkbook.Publishing.Lessons.Video;

/// <summary>
/// A picture as H.264 takes it: one plane of brightness, and two of colour at half the width and height, in the narrow range of ITU-R
/// BT.709-6 (black 16, white 235, colours 16 to 240).
/// </summary>
internal sealed class PlanarPicture
{
    private const double Red = 0.2126, Green = 0.7152, Blue = 0.0722;
    private const double Luma = 219.0 / 255, Chroma = 224.0 / 255;
    private static readonly int[] y = Fixed(Luma * Red, Luma * Green, Luma * Blue);
    private static readonly int[] cb = Fixed(-Chroma / 2 * Red / (1 - Blue), -Chroma / 2 * Green / (1 - Blue), Chroma / 2);
    private static readonly int[] cr = Fixed(Chroma / 2, -Chroma / 2 * Green / (1 - Red), -Chroma / 2 * Blue / (1 - Red));

    private readonly int width, height;
    private readonly byte[] bytes;

    /// <param name="width">Even, as the height is.</param>
    public PlanarPicture(int width, int height) => (this.width, this.height, bytes) = (width, height, new byte[width * height * 3 / 2]);

    public ReadOnlyMemory<byte> Bytes => bytes;

    /// <summary>Takes a part over from a picture of the same size in RGBA.</summary>
    /// <param name="left">All four edges are even.</param>
    public void Take(ReadOnlySpan<byte> rgba, int left, int top, int right, int bottom)
    {
        for (var row = top; row < bottom; row += 2)
        {
            for (var column = left; column < right; column += 2)
                TakeSquare(rgba, row, column);
        }
    }

    private void TakeSquare(ReadOnlySpan<byte> rgba, int row, int column)
    {
        int red = 0, green = 0, blue = 0;
        for (var i = 0; i < 4; i++)
        {
            var pixel = (row + (i >> 1)) * width + column + (i & 1);
            var (r, g, b) = (rgba[4 * pixel], rgba[4 * pixel + 1], rgba[4 * pixel + 2]);
            bytes[pixel] = (byte)(16 + Sum(y, r, g, b, 16));
            (red, green, blue) = (red + r, green + g, blue + b);
        }
        var square = (row / 2) * (width / 2) + column / 2;
        bytes[width * height + square] = (byte)(128 + Sum(cb, red, green, blue, 18));
        bytes[width * height * 5 / 4 + square] = (byte)(128 + Sum(cr, red, green, blue, 18));
    }

    /// <summary>Rounded to the nearest.</summary>
    private static int Sum(int[] weights, int r, int g, int b, int bits) => (weights[0] * r + weights[1] * g + weights[2] * b + (1 << (bits - 1))) >> bits;

    private static int[] Fixed(params ReadOnlySpan<double> weights) => [.. weights.ToArray().Select(w => (int)Math.Round(w * 65536))];
}
