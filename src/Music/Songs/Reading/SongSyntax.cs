using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>A song file's lines in their roles; what edits look up places in.</summary>
internal sealed class SongSyntax(SourceText source)
{
    /// <summary>The first word of a named pattern; the strings of a picked one follow it as they follow "pick".</summary>
    public const string Pattern = "pattern";

    /// <summary>Before a player, and before the tune's bars.</summary>
    public const string Tune = "tune";

    public static readonly ImmutableArray<string> FactWords = [.. Enum.GetNames<SongFact>().Select(n => n.ToLowerInvariant())];

    public static readonly ImmutableArray<string> PartWords = [.. Enum.GetNames<SongPart>().Select(n => n.ToLowerInvariant())];

    public static readonly ImmutableArray<string> AllWords = [.. FactWords, .. PartWords, "shape", Pattern, "section", "anchors"];

    public SourceText Source { get; } = source;

    public ImmutableArray<LineSyntax> Lines { get; } = [.. source.Lines.Select(l => LineSyntax.Of(source.Text, l))];

    /// <summary>From the file's names up to what sounds, where they are the hand's.</summary>
    public Interval? HandNames { get; set; }

    public Dictionary<SongFact, LineSyntax> Facts { get; } = [];

    public List<LineSyntax> Shapes { get; } = [];

    /// <summary>Every pattern's lines, in the order written.</summary>
    public List<PatternLines> PatternLines { get; } = [];

    /// <summary>The named patterns that could be read.</summary>
    public List<PatternSyntax> Patterns { get; } = [];

    public List<SectionSyntax> Sections { get; } = [];

    /// <summary>The section of a bar of the song (1 = its first), and which of the section's bars it is.</summary>
    public (SectionSyntax Section, int Bar) At(int barNumber)
    {
        var bar = barNumber;
        foreach (var section in Sections)
        {
            if (bar >= 1 && bar <= section.BarCount)
                return (section, bar);
            bar -= section.BarCount;
        }
        throw new ArgumentOutOfRangeException(nameof(barNumber), barNumber, $"The song has bars 1 to {Sections.Sum(s => s.BarCount)}.");
    }

    public static bool IsFact(string word, out SongFact fact)
    {
        fact = (SongFact)Math.Max(0, FactWords.IndexOf(word));
        return FactWords.Contains(word);
    }

    /// <summary>Whether a line behind "pick" or a pattern's name is one of its strings.</summary>
    public static bool IsString(LineSyntax line) => !AllWords.Contains(line.Keyword.Text) && line.BodyText.Contains('|');

    public static bool IsPart(string word, out SongPart part)
    {
        part = (SongPart)Math.Max(0, PartWords.IndexOf(word));
        return PartWords.Contains(word);
    }
}
