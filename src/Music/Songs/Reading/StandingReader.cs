using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>A standing as written, with the bar (and beat) of the line that it is kept to, if any.</summary>
internal sealed record StandingEntry(Span At, int? Bar, Beats? Beat, Standing Standing);

/// <summary>Reads "~heard 84%", "~decided", "~corrected 2026-11-25 Wren: why", "~bar 2 beat 3 heard 60%".</summary>
internal sealed class StandingReader(DiagnosticBag bag)
{
    private static readonly string[] Kinds = ["heard", "decided", "corrected", "assumed"];

    public ImmutableArray<StandingEntry> ReadAll(LineSyntax line) => [.. line.Standings.Select(s => Read(line, s)).OfType<StandingEntry>()];

    /// <summary>The standing of a line that takes only one.</summary>
    public Standing ReadOne(LineSyntax line, Standing otherwise)
    {
        var entries = ReadAll(line);
        foreach (var extra in entries.Where((e, i) => i > 0 || e.Bar is not null))
            bag.Add(DiagnosticCode.StandingNotKept, extra.At, "This line has one claim, so it takes one standing, without a bar.");
        return entries.FirstOrDefault(e => e.Bar is null)?.Standing ?? otherwise;
    }

    /// <summary>For lines that keep no standing.</summary>
    public void Refuse(LineSyntax line, string what)
    {
        foreach (var span in line.Standings)
            bag.Add(DiagnosticCode.StandingNotKept, span, $"{what} has no standing; this one is not kept.");
    }

    private StandingEntry? Read(LineSyntax line, Span span)
    {
        var words = new Queue<Token>(line.Split(Span.FromTo(span.Start + 1, span.End)));
        if (!TryReadPlace(words, span, out var bar, out var beat))
            return null;
        if (!words.TryDequeue(out var kind) || !Kinds.Contains(kind.Text.TrimEnd(':')))
        {
            var at = kind.Text is null ? span : kind.Span;
            bag.Add(DiagnosticCode.BadStanding, at, "After ~ comes heard, decided or corrected, as in ~heard 84%.",
                NearestWord.Suggest(kind.Text ?? "", Kinds) ?? "A ~ that belongs to a text stands in double quotes with it.");
            return null;
        }
        var rest = Span.FromTo(kind.Span.End - (kind.Text.EndsWith(':') ? 1 : 0), span.End);
        var standing = kind.Text.TrimEnd(':') switch
        {
            "heard" => ReadHeard(words, span),
            "assumed" => words.Count == 0 ? Standing.Assumed : Bad(span, "Nothing follows ~assumed."),
            "decided" => ReadSigned(line, rest, StandingKind.Decided),
            _ => ReadSigned(line, rest, StandingKind.Corrected),
        };
        return standing is null ? null : new(span, bar, beat, standing);
    }

    private bool TryReadPlace(Queue<Token> words, Span span, out int? bar, out Beats? beat)
    {
        (bar, beat) = (null, null);
        if (!words.TryPeek(out var first) || first.Text != "bar")
            return true;
        words.Dequeue();
        if (!words.TryDequeue(out var number) || !int.TryParse(number.Text, NumberStyles.None, CultureInfo.InvariantCulture, out var n) || n < 1)
            return Bad(span, "After 'bar' comes the bar's number in this section, as in ~bar 2 decided.") is not null;
        bar = n;
        if (!words.TryPeek(out var next) || next.Text != "beat")
            return true;
        words.Dequeue();
        if (!words.TryDequeue(out var at) || !BeatText.TryRead(at.Text, out var place))
            return Bad(span, "After 'beat' comes a beat of the bar, 1 the first, as in beat 3 or beat 2+1/2.") is not null;
        beat = place;
        return true;
    }

    private Standing? ReadHeard(Queue<Token> words, Span span)
    {
        if (words.Count == 0)
            return Standing.Heard(null);
        var text = words.Dequeue().Text;
        return words.Count == 0 && text.EndsWith('%') && TryReadPercent(text[..^1], out var confidence)
            ? Standing.Heard(confidence)
            : Bad(span, "After ~heard comes how sure the ear was, as in ~heard 84%.");
    }

    public static bool TryReadPercent(string text, out double confidence)
    {
        var good = int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var percent) && percent <= 100;
        confidence = percent / 100.0;
        return good;
    }

    private Standing ReadSigned(LineSyntax line, Span rest, StandingKind kind)
    {
        var colon = ColonIn(line.Text, rest);
        var head = line.Split(Span.FromTo(rest.Start, colon));
        var dated = head.Length > 0 && DateOnly.TryParseExact(head[0].Text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out _);
        DateOnly? on = dated ? DateOnly.ParseExact(head[0].Text, "yyyy-MM-dd", CultureInfo.InvariantCulture) : null;
        var who = head.Skip(dated ? 1 : 0).ToList();
        var by = who.Count == 0 ? null : Quoted.Unwrap(line.Text[who[0].Start..who[^1].Span.End]);
        var why = colon + 1 < rest.End ? Quoted.Unwrap(line.Text[(colon + 1)..rest.End].Trim()) : null;
        why = why == "" ? null : why;
        if (kind == StandingKind.Corrected && (on is null || by is null || why is null))
            bag.Add(DiagnosticCode.UnsignedCorrection, rest, "A correction says when, who and why: ~corrected 2026-11-25 Wren: the C is natural.");
        return new(kind, null, by, on, why);
    }

    private static int ColonIn(string text, Span span)
    {
        for (var i = span.Start; i < span.End; i++)
        {
            if (text[i] == ':')
                return i;
            i = Math.Max(i, Quoted.Closing(text, i, span.Start, span.End));
        }
        return span.End;
    }

    private Standing? Bad(Span at, string message)
    {
        bag.Add(DiagnosticCode.BadStanding, at, message);
        return null;
    }
}
