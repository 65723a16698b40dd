using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Editing;

/// <summary>Gives a pick block the line of a string that it left out.</summary>
internal sealed class StringLineEdits(SongSyntax syntax, Tuning tuning)
{
    private readonly LineEdits lines = new(syntax);

    /// <param name="block">Its lines.</param>
    /// <param name="note">In one of its bars; the others rest.</param>
    public IEnumerable<TextEdit> Add(List<PartLine> block, int bar, Voice voice, CellEvent note, Func<int, Meter> meterOf)
    {
        var higher = block.LastOrDefault(l => l.Voice.StringIndex != Voice.BassIndex && l.Voice.StringIndex > voice.StringIndex);
        var beside = higher ?? block[0];
        var decided = (beside with { Standings = [] }).StandingAt(bar, note.Start) == Standing.Decided || note.Text == "_"
            ? "" : "  " + StandingText.WriteAt(bar, note.Start, Standing.Decided);
        // Of two strings of one pitch the first line is the higher one's, so that it must be there too.
        var twins = Enumerable.Range(0, tuning.Count).Where(i => i > voice.StringIndex && tuning.Strings[i].Midi == tuning.Strings[voice.StringIndex].Midi
            && block.All(l => l.Voice.StringIndex != i)).Select(_ => Line(beside, voice, null, meterOf));
        var put = string.Join(syntax.Source.NewLine, twins.Append(Line(beside, voice, (bar, note), meterOf) + decided));
        yield return higher is null ? lines.Before(block[0].Line, put) : lines.After(higher.Line, put);
    }

    private string Line(PartLine beside, Voice voice, (int Bar, CellEvent Note)? sounding, Func<int, Meter> meterOf)
    {
        var head = beside.Line.Text[beside.Line.Whole.Start..beside.Line.Keyword.Start] + $"{tuning.Strings[voice.StringIndex]}";
        var width = beside.Line.Body.Start - beside.Line.Whole.Start;
        return head.PadRight(Math.Max(width, head.Length + 1)) + string.Concat(beside.Bars.Select((bar, i) => $"| {Cells(bar, beside.FirstBar + i)} ")) + "|";

        string Cells(BarSyntax bar, int number) => string.Join(' ', sounding is { } there && there.Bar == number
            ? BarGrid.Cells(meterOf(number), [there.Note], wanted: bar.Cells) : Enumerable.Repeat(".", Math.Max(1, bar.Cells)));
    }
}
