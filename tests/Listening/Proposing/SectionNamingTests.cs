using System.Collections.Immutable;
using Harkbook.Listening.Proposing;
using Harkbook.Units;
using Xunit;

namespace Harkbook.Listening.Tests.Proposing;

/// <summary>Expected by the words' meaning as players use them (data/section-words.tsv): common practice.</summary>
public sealed class SectionNamingTests
{
    [Theory]
    [InlineData("A B C B C", ".vvvv", "Intro Verse Chorus Verse Chorus")]
    [InlineData("A B C B C D C E", ".vvvvvv.", "Intro Verse Chorus Verse Chorus Bridge Chorus Outro")]
    [InlineData("A A B A", "vv.v", "Verse Verse Interlude Verse")]
    [InlineData("A A B A", "vvhv", "Verse Verse Solo Verse")]
    [InlineData("A B C D B C D E", ".vvvvvv.", "Intro Verse Pre-chorus Chorus Verse Pre-chorus Chorus Outro")]
    [InlineData("A B A B C", "vvvvv", "Verse Chorus Verse Chorus Outro")]
    [InlineData("B C D B D C", "vvvvvv", "Verse Chorus D Verse D Chorus")]
    [InlineData("A B C B C", ".vhv~", "Intro Verse Solo Verse Solo")]
    [InlineData("A B C D", ".vvv", "Intro B C D")]
    [InlineData("A B A", "...", "A B A")]
    public void SectionsAreCalledByWhatIsSungAndWhatComesBack(string letters, string sung, string names)
    {
        ImmutableArray<HeardSection> sections = [.. letters.Split(' ').Select((l, i) => new HeardSection(At(10 * i), At(10 * (i + 1)), l, 0.9))];
        var naming = new SectionNaming(sections, new(0, [.. Lines(sung)]));
        Assert.Equal(names, string.Join(' ', sections.Select((s, i) => naming.Of(i).Word ?? s.Label)));
    }

    [Fact]
    public void ASingerWhoMayNotBeThereNamesNothing()
    {
        ImmutableArray<HeardSection> sections = [new(At(0), At(10), "A", 0.9), new(At(10), At(20), "B", 0.9), new(At(20), At(30), "B", 0.9)];
        Assert.Null(new SectionNaming(sections, new(0.4, [Line(LineKind.Voice, [1, 2], 0.6)])).Of(1).Word);
    }

    /// <summary>v is sung, h blown, a dot neither; of a section under ~ not quite a fifth is sung.</summary>
    private static IEnumerable<HeardLine> Lines(string sung)
    {
        foreach (var (sign, kind) in new[] { ('v', LineKind.Voice), ('h', LineKind.Harmonica) })
        {
            int[] parts = [.. Enumerable.Range(0, sung.Length).Where(i => sung[i] == sign)];
            int[] touched = kind == LineKind.Voice ? [.. Enumerable.Range(0, sung.Length).Where(i => sung[i] == '~')] : [];
            if (parts.Length > 0)
                yield return Line(kind, parts, 0.95, touched);
        }
    }

    /// <summary>A note of six seconds in each of such sections of ten, one shorter than two in some others.</summary>
    private static HeardLine Line(LineKind kind, int[] sections, double sure, int[]? touched = null) => new()
    {
        Kind = new(new Candidate<LineKind>(kind, sure)),
        Contour = PitchContour.Silent,
        Notes = [.. sections.Select(s => new HeardLineNote(60, default, At(10 * s + 2), At(10 * s + 8), 0.9)),
            .. (touched ?? []).Select(s => new HeardLineNote(60, default, At(10 * s + 2), At(10 * s + 3.8), 0.9))],
    };

    private static Seconds At(double seconds) => Seconds.FromSeconds(seconds);
}
