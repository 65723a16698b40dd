using System.Globalization;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>A change of key as written in a section.</summary>
internal sealed record KeyLine(LineSyntax Line, Key Key, int FromBar, Standing Standing)
{
    /// <summary>The span of the key's own words; "from" and its bar are not among them.</summary>
    public static Span KeyAt(LineSyntax line)
    {
        var words = KeyWords(line);
        return words.Count == 0 ? line.Body : Span.FromTo(words[0].Start, words[^1].Span.End);
    }

    /// <summary>Reads "key E minor from 5"; null, with a diagnostic, where it makes no sense.</summary>
    /// <param name="next">The bar that it holds from where it doesn't say.</param>
    public static KeyLine? Read(LineSyntax line, int next, DiagnosticBag bag, StandingReader standings)
    {
        var standing = standings.ReadOne(line, Standing.Decided);
        var (words, behind) = (KeyWords(line), line.Words().SkipWhile(w => w.Text != "from").ToList());
        if (behind.Count > 0 && (behind.Count != 2 || !int.TryParse(behind[1].Text, NumberStyles.None, CultureInfo.InvariantCulture, out next)
            || next is < 1 or > 9999))
        {
            bag.Add(DiagnosticCode.BadFrom, behind[^1].Span,
                "Behind 'from' comes the first bar of the new key, counted in this section, as in key E minor from 5.");
            return null;
        }
        if (Key.TryParse(string.Join(' ', words.Select(w => w.Text)), out var key))
            return new(line, key, next, standing);
        var wrong = words.Skip(1).FirstOrDefault();
        bag.Add(DiagnosticCode.BadKey, wrong.Text is not null ? wrong.Span : line.Body.Length > 0 ? line.Body : line.Keyword.Span,
            $"In a section, a key is a tonic and one of {string.Join(", ", Mode.All)}; it holds from the bar after the last one written so far, or from a bar "
                + "that it names, as in key E minor from 5.",
            Minor(line.BodyText) ?? NearestWord.Suggest(wrong.Text ?? "", Mode.All.Select(m => m.Name)));
        return null;
    }

    /// <summary>"Am" is a chord's way to write A minor.</summary>
    public static string? Minor(string text) =>
        text.Split(' ')[0] is [.. var tonic, 'm'] && PitchName.TryParse(tonic, out var name) ? $"Did you mean '{name} minor'?" : null;

    private static List<Token> KeyWords(LineSyntax line) => [.. line.Words().TakeWhile(w => w.Text != "from")];
}
