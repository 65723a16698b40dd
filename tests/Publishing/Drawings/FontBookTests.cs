using System.Text;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Tests.Drawings;

public class FontBookTests
{
    // IBM Plex Mono is monospaced at 600 units of 1000 (IBM Plex repository, README and horizontal metrics table).
    [Fact]
    public void DigitsAreAllAsWide() =>
        Assert.All("0123456789", d => Assert.Equal(6.0, FontBook.Width(d.ToString(), Face.Digits, 10), 0.001));

    [Fact]
    public void WidthGrowsWithSize() =>
        Assert.Equal(2 * FontBook.Width("Lantern", Face.Text, 10), FontBook.Width("Lantern", Face.Text, 20), 1e-9);

    // Kerning moves A and V together, so the pair is narrower than its letters.
    [Fact]
    public void LettersAreKerned() =>
        Assert.True(FontBook.Width("AV", Face.Text, 100) < FontBook.Width("A", Face.Text, 100) + FontBook.Width("V", Face.Text, 100) - 1);

    [Theory]
    [InlineData("F♯ B♭ C♮ 𝄽 ↑ ↓ × ′")]
    [InlineData("Převozník, Øresmouth, дорога, αλατιού, ğıöç, Nguyễn")]
    public void SignsAndEuropeanLettersAreThere(string text) => Assert.Empty(FontBook.Lacks(text));

    [Fact]
    public void MissingCharactersAreNamed() =>
        Assert.Equal([new Rune('漢'), new Rune('字')], FontBook.Lacks("a漢字漢"));

    [Theory]
    [InlineData("♯")]
    [InlineData("♭")]
    [InlineData("♮")]
    public void AccidentalsStandBesideCapitals(string sign)
    {
        var bounds = new TextMark(sign, new(0, 0), Face.Text, 100, Tint.Ink).Bounds;
        Assert.InRange(bounds.Bottom, -6, 6);
        Assert.InRange(bounds.Top, -78, -62);
    }
}
