using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;

namespace Harkbook.Music.Songs.Editing;

/// <summary>Edits of facts and shapes.</summary>
internal sealed class FactEdits(SongSyntax syntax)
{
    private readonly LineEdits lines = new(syntax);

    public IEnumerable<TextEdit> SetFact(SongFact fact, string value, Standing? standing)
    {
        var put = fact is SongFact.Title or SongFact.Player or SongFact.Album ? PlainText.Write(value) : value;
        return syntax.Facts.TryGetValue(fact, out var line)
            ? ReplaceBody(line, line.Body, put).Concat(standing is null ? [] : lines.SetStanding(line, standing))
            : [lines.After(LineBefore(fact), WithStanding($"{fact.ToString().ToLowerInvariant(),-10} {put}", standing))];
    }

    public IEnumerable<TextEdit> SetFactStanding(SongFact fact, Standing standing) =>
        syntax.Facts.TryGetValue(fact, out var line)
            ? lines.SetStanding(line, standing)
            : throw new ArgumentException($"The file doesn't say the {fact.ToString().ToLowerInvariant()}; set its value first.", nameof(fact));

    public IEnumerable<TextEdit> SetShape(string name, Shape shape, Standing? standing)
    {
        var frets = shape.Fingers.IsEmpty ? shape.ToString() : $"{shape}  fingers {string.Concat(shape.Fingers)}";
        if (ShapeLine(name) is { } line)
            return ReplaceBody(line, Span.FromTo(line.Words() is { Length: > 1 } words ? words[1].Start : line.Body.End, line.Body.End), frets)
                .Concat(standing is null ? [] : lines.SetStanding(line, standing));
        var put = WithStanding($"{"shape",-10} {name,-8}  {frets}", standing);
        return [syntax.Shapes.Count > 0 ? lines.After(syntax.Shapes[^1], put) : lines.After(LastFact(), syntax.Source.NewLine + put)];
    }

    public IEnumerable<TextEdit> SetShapeStanding(string name, Standing standing) =>
        lines.SetStanding(ShapeLine(name) ?? throw new ArgumentException($"No shape is called {name}.", nameof(name)), standing);

    private LineSyntax? ShapeLine(string name) => syntax.Shapes.FirstOrDefault(l => l.Words() is { Length: > 0 } words && words[0].Text == name);

    private static IEnumerable<TextEdit> ReplaceBody(LineSyntax line, Span at, string put) =>
        [new(at, at.Length == 0 && (at.Start == line.Keyword.Span.End || !char.IsWhiteSpace(line.Text[at.Start - 1])) ? " " + put : put)];

    private static string WithStanding(string line, Standing? standing) =>
        standing is null || standing == Standing.Decided ? line : $"{line}  {StandingText.Write(standing)}";

    /// <summary>The nearest fact that stands before this one in a fresh file.</summary>
    private LineSyntax? LineBefore(SongFact fact) =>
        syntax.Facts.Where(f => f.Key < fact).OrderByDescending(f => f.Key).Select(f => f.Value).FirstOrDefault();

    private LineSyntax? LastFact() => syntax.Facts.Values.MaxBy(l => l.Whole.Start);
}
