using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;

namespace Harkbook.Publishing.Drawings;

/// <summary>A hash of all that a renderer reads of a drawing: drawings of one digest look alike.</summary>
public static class DrawingDigest
{
    /// <summary>32 bytes (SHA-256).</summary>
    public static byte[] Of(Drawing drawing)
    {
        using var bytes = new MemoryStream();
        using (var writer = new BinaryWriter(bytes, Encoding.UTF8, leaveOpen: true))
        {
            Write(writer, drawing.Width, drawing.Height);
            Write(writer, drawing.Marks);
        }
        return SHA256.HashData(bytes.GetBuffer().AsSpan(0, (int)bytes.Length));
    }

    private static void Write(BinaryWriter writer, ImmutableArray<Mark> marks)
    {
        writer.Write(marks.Length);
        foreach (var mark in marks)
            Write(writer, mark);
    }

    private static void Write(BinaryWriter writer, Mark mark)
    {
        writer.Write(mark.GetType().Name);
        switch (mark)
        {
            case LineMark m:
                Write(writer, m.From.X, m.From.Y, m.To.X, m.To.Y);
                Write(writer, m.Pen);
                break;
            case RectMark m:
                Write(writer, m.Box.Left, m.Box.Top, m.Box.Right, m.Box.Bottom, m.Corner);
                Write(writer, m.Pen);
                break;
            case CircleMark m:
                Write(writer, m.Centre.X, m.Centre.Y, m.Radius);
                Write(writer, m.Pen);
                break;
            case PathMark m:
                writer.Write(m.Data);
                Write(writer, m.Pen);
                break;
            case TextMark m:
                Write(writer, m.At.X, m.At.Y, m.Size, (int)m.Face, (int)m.Tint);
                Write(writer, m.Text, m.Says);
                break;
            case GroupMark m:
                Write(writer, m.At.X, m.At.Y, m.Scale);
                Write(writer, m.Label, m.Link);
                Write(writer, m.Marks);
                break;
            default:
                throw new ArgumentException($"A {mark.GetType().Name} isn't known here yet; add what a renderer reads of it.", nameof(mark));
        }
    }

    private static void Write(BinaryWriter writer, Pen pen)
    {
        Write(writer, pen.Fill is { } fill ? (int)fill : -1, pen.Stroke is { } stroke ? (int)stroke : -1, pen.Width, pen.Opacity, pen.RoundEnds ? 1 : 0);
        Write(writer, pen.Dash.IsDefaultOrEmpty ? [] : pen.Dash.AsSpan());
    }

    private static void Write(BinaryWriter writer, params ReadOnlySpan<double> numbers)
    {
        writer.Write(numbers.Length);
        foreach (var number in numbers)
            writer.Write(number);
    }

    private static void Write(BinaryWriter writer, params ReadOnlySpan<string?> texts)
    {
        foreach (var text in texts)
        {
            writer.Write(text is not null);
            writer.Write(text ?? "");
        }
    }
}
