using Harkbook.Publishing.Lessons.Video;

namespace Harkbook.Publishing.Tests.Lessons;

public sealed class PlanarPictureTests
{
    /// <summary>
    /// ITU-R BT.709-6, items 3.3 to 3.5 and 4.6, by hand: E'Y = 0.2126 R + 0.7152 G + 0.0722 B, D'Y = 219 E'Y + 16, and
    /// D'C = 224 E'C + 128 with E'CB = (B − E'Y) / 1.8556 and E'CR = (R − E'Y) / 1.5748. For red: 62.6, 102.3, 240.
    /// </summary>
    [Theory]
    [InlineData(255, 255, 255, 235, 128, 128)]
    [InlineData(0, 0, 0, 16, 128, 128)]
    [InlineData(255, 0, 0, 63, 102, 240)]
    [InlineData(0, 255, 0, 173, 42, 26)]
    [InlineData(0, 0, 255, 32, 240, 118)]
    public void ColoursAreThoseOfTheStandard(int red, int green, int blue, int y, int cb, int cr)
    {
        var picture = new PlanarPicture(4, 2);
        byte[] pixel = [(byte)red, (byte)green, (byte)blue, 255];
        picture.Take(Enumerable.Repeat(pixel, 8).SelectMany(p => p).ToArray(), 0, 0, 4, 2);
        byte[] expected = [.. Enumerable.Repeat((byte)y, 8), (byte)cb, (byte)cb, (byte)cr, (byte)cr];
        Assert.Equal(expected, picture.Bytes.ToArray());
    }

    /// <summary>After frames in which the marker moved, the planes are those of a painter that saw only the last of them.</summary>
    [Fact]
    public void APictureTakenOverInPartsIsTheWholePicture()
    {
        var plan = new FramePlan(new(LessonSongs.FourBars), 4.5);
        using var moving = new FramePainter(plan);
        using var fresh = new FramePainter(plan);
        for (var frame = 0; frame < 40; frame++)
            moving.Paint((frame + 0.5) / 30);
        var pixels = fresh.Paint(39.5 / 30);
        var whole = new PlanarPicture(Screen.Width, Screen.Height);
        whole.Take(pixels, 0, 0, Screen.Width, Screen.Height);
        Assert.True(whole.Bytes.Span.SequenceEqual(moving.Planes.Span));
        Assert.True(whole.Bytes.Span.SequenceEqual(fresh.Planes.Span));
    }
}
