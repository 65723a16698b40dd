namespace Harkbook.Music.Instruments.Voicings;

/// <summary>A combination of frets in one number, five bits a string, so that a search can hold thousands of them.</summary>
internal readonly record struct PackedFrets(ulong Bits)
{
    /// <param name="frets">−1 (muted) to 30, at most twelve.</param>
    public static PackedFrets Of(ReadOnlySpan<int> frets)
    {
        var bits = 0UL;
        for (var i = frets.Length - 1; i >= 0; i--)
            bits = bits << 5 | (uint)(frets[i] + 1);
        return new(bits);
    }

    public int[] Unpacked(int strings)
    {
        var frets = new int[strings];
        for (var i = 0; i < strings; i++)
            frets[i] = (int)(Bits >> 5 * i & 31) - 1;
        return frets;
    }
}
