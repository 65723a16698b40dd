namespace Harkbook.Listening.Evidence;

/// <summary>
/// The cells of each frame in which something that isn't plucked may sound, by pitch; frame f is centred on f hops of the note posteriorgram.
/// A cell takes eight bytes: chances in 255 steps, the offset in 127ths of a semitone, the level in half decibels.
/// </summary>
internal sealed class LineCells
{
    public const int CellBytes = 8;

    private const float Quietest = -120;

    private readonly int[] ends;
    private readonly List<byte> cells;

    private LineCells(int[] ends, List<byte> cells) => (this.ends, this.cells) = (ends, cells);

    public static LineCells None { get; } = new([], []);

    public int Frames => ends.Length;

    /// <summary>A frame's cells.</summary>
    public LineCell[] this[int frame]
    {
        get
        {
            var first = frame == 0 ? 0 : ends[frame - 1];
            var found = new LineCell[ends[frame] - first];
            for (var i = 0; i < found.Length; i++)
                found[i] = Cell((first + i) * CellBytes);
            return found;
        }
    }

    /// <summary>The cell of a pitch in a frame; null where nothing may sound there.</summary>
    public LineCell? Find(int frame, int pitch)
    {
        for (var i = frame == 0 ? 0 : ends[frame - 1]; i < ends[frame]; i++)
        {
            if (cells[i * CellBytes] == pitch)
                return Cell(i * CellBytes);
        }
        return null;
    }

    /// <param name="frames">Each frame's cells, in order.</param>
    public static LineCells Of(IEnumerable<IEnumerable<LineCell>> frames)
    {
        var writer = new Writer();
        foreach (var frame in frames)
            writer.Add(frame);
        return writer.Written();
    }

    /// <summary>How many cells each frame has, and all cells' bytes.</summary>
    internal (byte[] Counts, byte[] Cells) Packed() =>
        ([.. ends.Select((e, f) => (byte)(e - (f == 0 ? 0 : ends[f - 1])))], [.. cells]);

    /// <param name="counts">Of <see cref="Packed"/>.</param>
    internal static LineCells Unpacked(byte[] counts, byte[] cells)
    {
        var (ends, sum) = (new int[counts.Length], 0);
        for (var f = 0; f < counts.Length; f++)
            ends[f] = sum += counts[f];
        return sum * CellBytes == cells.Length ? new(ends, [.. cells])
            : throw new FormatException($"{cells.Length} bytes stand where {sum} cells should.");
    }

    private LineCell Cell(int at) => new(
        cells[at],
        new(cells[at + 1] / 255f, cells[at + 2] / 255f, cells[at + 3] / 255f, cells[at + 4] / 255f),
        cells[at + 5] / 255f, (sbyte)cells[at + 6] / 127f, Quietest + cells[at + 7] / 2f);

    /// <summary>Takes frames in order.</summary>
    internal sealed class Writer
    {
        private readonly List<int> ends = [];
        private readonly List<byte> cells = [];

        public void Add(IEnumerable<LineCell> frame)
        {
            foreach (var cell in frame)
            {
                cells.AddRange([(byte)cell.Pitch, Share(cell.Kinds.Reed), Share(cell.Kinds.Voice), Share(cell.Kinds.Blown), Share(cell.Kinds.Bowed),
                    Share(cell.Onset), (byte)(sbyte)Math.Round(Math.Clamp(cell.Off, -1, 1) * 127),
                    (byte)Math.Round(Math.Clamp((cell.Level - Quietest) * 2, 0, 255))]);
            }
            ends.Add(cells.Count / CellBytes);
        }

        public LineCells Written() => new([.. ends], cells);

        private static byte Share(float chance) => (byte)Math.Round(Math.Clamp(chance, 0, 1) * 255);
    }
}
