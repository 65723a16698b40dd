using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Reads the lines of one pick block, a string each.</summary>
internal sealed class StringLines(DiagnosticBag bag, BarLineReader bars, Tuning? tuning)
{
    /// <summary>The line of whichever string is the lowest that the bar's shape sounds.</summary>
    public const string Bass = "bass";

    private readonly List<VoiceLine> lines = [];
    private readonly HashSet<int> taken = [];
    private bool any;

    public void Read(LineSyntax line)
    {
        any = true;
        var (head, read) = bars.Take(line, SongPart.Pick);
        if (head.Length > 0)
            bag.Add(DiagnosticCode.BadFrom, head[0].Span,
                "Before a string's first bar stands nothing but its pitch; 'from' and a bar stand behind 'pick' and hold for all its strings.");
        if (tuning is not null && VoiceOf(line, tuning) is { } voice)
            lines.Add(new(line, voice, read));
    }

    public ImmutableArray<VoiceLine> Finish(LineSyntax header)
    {
        if (!any)
            bag.Add(DiagnosticCode.EmptyPick, header.Keyword.Span, "No string follows.", "Write one a line, high to low, as in D4 | 0 . 2 . |.");
        var most = lines.Select(l => l.Bars.Length).DefaultIfEmpty(0).Max();
        foreach (var line in lines.Where(l => l.Bars.Length != most))
            bag.Add(DiagnosticCode.BarCount, line.Line.Keyword.Span,
                $"String {line.Line.Keyword.Text} has {line.Bars.Length} bars, another string of this block {most}.");
        return [.. lines];
    }

    private Voice? VoiceOf(LineSyntax line, Tuning tuning)
    {
        var label = line.Keyword.Text;
        if (label == Bass && taken.Add(Voice.BassIndex))
            return new(SongPart.Pick, Voice.BassIndex);
        var index = label == Bass ? -1 : StringLabels.Take(label, tuning, taken);
        if (index >= 0)
            return new(SongPart.Pick, index);
        Refuse(line, tuning);
        return null;
    }

    private void Refuse(LineSyntax line, Tuning tuning)
    {
        var label = line.Keyword.Text;
        var known = Pitch.TryParse(label, out var pitch);
        var highToLow = string.Join(" ", tuning.Strings.Reverse());
        if (label == Bass || (known && tuning.Strings.Any(s => s.Midi == pitch.Midi)))
            bag.Add(DiagnosticCode.StringTwice, line.Keyword.Span, $"The string {label} is given twice in this block.");
        else
            bag.Add(DiagnosticCode.UnknownString, line.Keyword.Span,
                $"A string is named by its open pitch without capo; from high to low they are {highToLow}.",
                known ? $"The nearest is {tuning.Strings.MinBy(s => Math.Abs(s.Midi - pitch.Midi))}."
                    : NearestWord.Suggest(label, tuning.Strings.Select(s => s.ToString()).Append(Bass)));
    }
}
