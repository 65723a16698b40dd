using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Tests.Drawings;

public class PaletteTests
{
    // WCAG 2.2, 1.4.3: #767676 is the lightest grey that passes 4.5:1 on white, #777777 fails (WebAIM, "Contrast and Color Accessibility").
    [Theory]
    [InlineData("767676", 4.542)]
    [InlineData("777777", 4.478)]
    [InlineData("000000", 21.0)]
    // Okabe-Ito colours (hex values as in R's palette.colors documentation), luminance by the WCAG formula.
    [InlineData("E69F00", 2.252)]
    [InlineData("56B4E9", 2.307)]
    [InlineData("009E73", 3.421)]
    [InlineData("0072B2", 5.185)]
    [InlineData("D55E00", 3.867)]
    public void ContrastOnWhiteFollowsWcag(string hex, double ratio) =>
        Assert.Equal(ratio, Colour.FromHex(hex).Contrast(Colour.FromHex("FFFFFF")), 0.001);

    public static TheoryData<Palette> Palettes => [Palette.Paper, Palette.Screen];

    // WCAG 2.2, 1.4.3: text needs 4.5:1.
    [Theory]
    [MemberData(nameof(Palettes))]
    public void WordsStandOutFromTheGround(Palette palette)
    {
        foreach (var tint in (Tint[])[Tint.Ink, Tint.Quiet, Tint.Hand, Tint.Voice, Tint.Blow, Tint.Draw, Tint.Heard])
            Assert.True(palette[tint].Contrast(palette[Tint.Paper]) >= 4.5, $"{tint} on {palette.Name}");
        foreach (var tint in (Tint[])[Tint.Hand, Tint.Blow, Tint.Draw])
            Assert.True(palette[Tint.OnColour].Contrast(palette[tint]) >= 4.5, $"signs on {tint} on {palette.Name}");
    }

    // WCAG 2.2, 1.4.11: graphics needed to understand the content need 3:1.
    [Theory]
    [MemberData(nameof(Palettes))]
    public void LinesStandOutFromTheGround(Palette palette) =>
        Assert.True(palette[Tint.Line].Contrast(palette[Tint.Paper]) >= 3);

    [Fact]
    public void AWordThatIsNoColourIsRefused() => Assert.Throws<FormatException>(() => Colour.FromHex("12345G"));
}
