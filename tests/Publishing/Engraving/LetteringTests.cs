using CsCheck;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;

namespace Harkbook.Publishing.Tests.Engraving;

public class LetteringTests
{
    [Theory]
    [InlineData("D", "D", null)]
    [InlineData("F#m7", "F ♯ m 7", "F#m7")]
    [InlineData("Bb/D", "B ♭ / D", "Bb/D")]
    [InlineData("C#m7b5/G#", "C ♯ m 7♭5 / G ♯", "C#m7b5/G#")]
    [InlineData("Dsus4@high", "D sus 4 high", "Dsus4")]
    [InlineData("Ebmaj7#11", "E ♭ maj 7♯11", "Ebmaj7#11")]
    [InlineData("N.C.", "N.C.", null)]
    public void ChordNamesAreSetInParts(string name, string parts, string? says)
    {
        var marks = ChordLettering.Of(name, 20).Marks;
        Assert.Equal(parts, string.Join(' ', marks.Select(m => m.Text)));
        Assert.Equal(says, marks[0].Says);
    }

    [Fact]
    public void ALongNameShrinksToItsRoom() =>
        Assert.Equal(40, ChordLettering.Fitting("C#m(maj7)/G#", 20, 40, least: 0.1).Width, 1e-6);

    [Fact]
    public void WrappedLinesFitAndKeepEveryLetter() =>
        Gen.Select(Gen.String[Gen.Char["abcWi. -ő"], 0, 200], Gen.Double[30, 300]).Sample((text, width) =>
        {
            var lines = TextWrap.Lines(text, Face.Text, 10, width);
            Assert.All(lines, l => Assert.True(FontBook.Width(l, Face.Text, 10) <= width + 1e-9));
            Assert.Equal(string.Concat(text.Where(c => c != ' ')), string.Concat(string.Concat(lines).Where(c => c != ' ')));
        }, iter: 300, seed: "0000KhQ8ZQk4");
}
