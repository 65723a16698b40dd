using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Reads "pattern Rolling in 3/4 | d . du |", and picking patterns with their strings.</summary>
internal sealed class PatternReader(SongSyntax syntax, DiagnosticBag bag, StandingReader standings, Tuning? tuning, Meter songMeter)
{
    /// <summary>Words that stand behind "strum" and "pick" for something else.</summary>
    private static readonly string[] Taken = [BarLineReader.Throughout, "from"];

    private readonly BarLineReader bars = new(bag);

    public void Read()
    {
        foreach (var pattern in syntax.PatternLines.Select(ReadOne).OfType<PatternSyntax>())
        {
            if (syntax.Patterns.Any(p => p.Name == pattern.Name))
                bag.Add(DiagnosticCode.GivenTwice, pattern.Header.Keyword.Span, $"There is a pattern {pattern.Name} already.", "Give this one another name.");
            else
                syntax.Patterns.Add(pattern);
        }
    }

    private PatternSyntax? ReadOne(PatternLines lines)
    {
        standings.Refuse(lines.Header, "A pattern");
        var (head, read) = lines.Strings.Count > 0 ? (lines.Header.Words(), []) : bars.Take(lines.Header, SongPart.Strum);
        if (ReadHead(lines.Header, head) is not var (name, meter))
            return null;
        if (lines.Strings.Count == 0)
            return new(lines.Header, name, meter, SongPart.Strum, [new(lines.Header, new(SongPart.Strum), read)]);
        var strings = new StringLines(bag, bars, tuning);
        foreach (var line in lines.Strings)
        {
            standings.Refuse(line, "A pattern");
            strings.Read(line);
        }
        return new(lines.Header, name, meter, SongPart.Pick, strings.Finish(lines.Header));
    }

    private (string Name, Meter Meter)? ReadHead(LineSyntax line, ImmutableArray<Token> head)
    {
        var meter = songMeter;
        var timed = head.Length > 1 && head[^2].Text == "in";
        var name = head.Length == 0 ? "" : Quoted.Unwrap(line.Text[head[0].Start..head[timed ? Math.Max(0, head.Length - 3) : ^1].Span.End]);
        if (head.Length > (timed ? 2 : 0) && !Taken.Contains(head[0].Text) && (!timed || Meter.TryParse(head[^1].Text, out meter)))
            return (name, meter.Among(songMeter));
        bag.Add(DiagnosticCode.BadPattern, head.Length > 0 ? Span.FromTo(head[0].Start, head[^1].Span.End) : line.Keyword.Span,
            $"A pattern has a name (other than {string.Join(" and ", Taken)}) and, where its meter isn't the song's, 'in' and that, as in pattern Rolling in "
                + "3/4 | d . du |; a picked one has its strings on the lines below.");
        return null;
    }
}
