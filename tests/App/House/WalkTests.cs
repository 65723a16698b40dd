using System.Text.RegularExpressions;

namespace Harkbook.App.Tests.House;

/// <summary>docs/walk.md names types of the code.</summary>
public partial class WalkTests
{
    [Fact]
    public void EveryTypeOnTheWalkIsThere()
    {
        var root = Repository.Root;
        var sources = Directory.GetFiles(Path.Combine(root, "src"), "*.cs", SearchOption.AllDirectories)
            .Select(File.ReadAllText).SelectMany(text => Declared().Matches(text)).Select(m => m.Groups[1].Value).ToHashSet();

        var named = Named().Matches(File.ReadAllText(Path.Combine(root, "docs", "walk.md"))).Select(m => m.Groups[1].Value).Distinct().ToArray();

        Assert.True(named.Length > 30, $"Only {named.Length} types are named.");
        Assert.All(named, name => Assert.Contains(name, sources));
    }

    [GeneratedRegex(@"\b(?:class|record|struct|interface|enum) ([A-Z]\w+)")]
    private static partial Regex Declared();

    [GeneratedRegex(@"`([A-Z][a-z]\w+)`")]
    private static partial Regex Named();
}
