using System.Collections.Immutable;
using System.Text;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Editing;

/// <summary>
/// A bar that its section doesn't write itself, written out with one sign changed: behind the section's line or block that ends before it, else on lines
/// of its own.
/// </summary>
internal sealed class WrittenOutBar(SongSyntax syntax, SectionSyntax section, int bar, Func<int, Meter> meterOf, Tuning tuning)
{
    private const int BarsPerLine = 4;

    private readonly LineEdits lines = new(syntax);

    /// <param name="sign">"_" where what sounds ends, "." where nothing is to start.</param>
    public IEnumerable<TextEdit> With(Voice voice, Beats at, string sign)
    {
        var voices = Voices(voice.Part).ToImmutableDictionary(v => v, v => Signs(v, v == voice ? at : null, sign));
        var before = section.Lines.Where(l => l.Voice.Part == voice.Part && !l.Repeats && l.EndBar == bar).ToList();
        return Takes(before, voices) ? before.SelectMany(line => Longer(line, voices.GetValueOrDefault(line.Voice, []))) : [Anew(voice.Part, voices)];
    }

    private IEnumerable<Voice> Voices(SongPart part)
    {
        if (part != SongPart.Pick)
            return [new(part)];
        var bass = new Voice(part, Voice.BassIndex);
        return [.. Enumerable.Range(0, tuning.Count).Select(i => new Voice(part, i)), .. Written(bass).IsEmpty ? [] : new[] { bass }];
    }

    private ImmutableArray<PlacedLeaf> Written(Voice voice) => PickedBars.Placed(section, voice, meterOf).GetValueOrDefault(bar, []);

    /// <summary>What a voice has in the bar as it is, with the place changed.</summary>
    private ImmutableArray<Written> Signs(Voice voice, Beats? at, string sign)
    {
        var kept = Written(voice).Where(l => l.Start != at)
            .Select(l => new Written(bar, l.Start, Beats.Zero, l.Leaf.Unmarked, l.Leaf.Silences ? Standing.Decided : l.Line.StandingOf(l.Leaf, bar, l.Start)));
        return at is { } place && sign != "." ? [.. kept.Append(new(bar, place, Beats.Zero, sign, Standing.Decided)).OrderBy(w => w.Start)] : [.. kept];
    }

    /// <summary>A block takes the bar where all that sounds has its line, and no meter or key that holds "from the next bar" would be shifted.</summary>
    private bool Takes(List<PartLine> block, ImmutableDictionary<Voice, ImmutableArray<Written>> voices) =>
        block.Count > 0 && block[0].Bars.Length < BarsPerLine
        && voices.All(v => v.Value.IsEmpty || block.Any(l => l.Voice == v.Key))
        && section.Meters.Select(m => (m.Line, m.FromBar)).Concat(section.Keys.Select(k => (k.Line, k.FromBar)))
            .All(m => m.Line.Whole.Start < block[0].Line.Whole.Start || m.FromBar > bar);

    private IEnumerable<TextEdit> Longer(PartLine line, ImmutableArray<Written> signs)
    {
        var cells = signs.IsEmpty ? Enumerable.Repeat(".", meterOf(bar).BeatsPerBar)
            : BarGrid.Cells(meterOf(bar), [.. signs.Select(s => new CellEvent(s.Start, s.Text == "_" ? "_" : s.In(line.StandingAt(bar, s.Start))))]);
        yield return TextEdit.Insert(line.Bars[^1].Between.End + 1, $" {string.Join(' ', cells)} |");
        foreach (var sign in signs.Where(s => s.Text != "_" && s.Standing != line.StandingAt(bar, s.Start) && StandingText.Mark(s.Standing) is null))
            yield return TextEdit.Insert(line.Line.CodeEnd, "  " + StandingText.WriteAt(bar, sign.Start, sign.Standing));
    }

    private TextEdit Anew(SongPart part, ImmutableDictionary<Voice, ImmutableArray<Written>> voices)
    {
        var head = part.ToString().ToLowerInvariant() + (section.BarCount > 1 ? $" from {bar}" : "");
        var scripts = voices.OrderByDescending(v => v.Key.StringIndex == Voice.BassIndex ? -1 : v.Key.StringIndex)
            .Select(v => (Label(v.Key), Script(v.Value))).ToImmutableArray();
        var claims = voices.Values.SelectMany(v => v).Where(w => w.Text != "_");
        var table = new VoiceLines(meterOf).Of(part, head, scripts, [bar], 0, VoiceLines.Usual(claims)).ToList();
        var text = new StringBuilder();
        LineTable.Append(text, table, Math.Max(10, table.Max(l => l.Head.Length)) + 1);
        var put = text.ToString().TrimEnd('\n').Replace("\n", syntax.Source.NewLine);
        var later = section.Lines.FirstOrDefault(l => l.Voice.Part == part && !l.Repeats && l.FirstBar > bar)?.Line;
        return later is null ? lines.After(section.LastLine, put) : lines.Before(part == SongPart.Pick ? BlockOf(later) : later, put);
    }

    private string Label(Voice voice) => voice.Part != SongPart.Pick ? ""
        : "  " + (voice.StringIndex == Voice.BassIndex ? StringLines.Bass : $"{tuning.Strings[voice.StringIndex]}");

    private static VoiceScript Script(ImmutableArray<Written> signs) =>
        new(signs.Where(s => s.Text != "_"), signs.Where(s => s.Text == "_").Select(s => (s.Bar, s.Start)), _ => 0);

    /// <summary>The line "pick" over a string's line.</summary>
    private LineSyntax BlockOf(LineSyntax line) => syntax.Lines.Last(l => l.Whole.Start <= line.Whole.Start && l.Keyword.Text == "pick");
}
