using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Songs;

public class TextChangesTests
{
    [Theory]
    [InlineData("a|b|c", "a|b|c", "")]
    [InlineData("a|b|c", "a|B|c", "   2 - b|   2 + B")]
    [InlineData("a|c", "a|b|c", "   2 + b")]
    [InlineData("a|b|c", "c", "   1 - a|   2 - b")]
    [InlineData("a|b|c|d", "a|B|c|D", "   2 - b|   2 + B|   4 - d|   4 + D")]
    [InlineData("a", "b|c", "   1 - a|   1 + b|   2 + c")]
    public void LinesThatGoAndCome(string before, string after, string changes) =>
        Assert.Equal(changes, string.Join('|', TextChanges.Between(before.Replace('|', '\n'), after.Replace('|', '\n'))));
}
