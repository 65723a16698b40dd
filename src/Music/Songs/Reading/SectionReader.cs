using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Reads the lines from the first "section" on into sections.</summary>
internal sealed class SectionReader(SongSyntax syntax, DiagnosticBag bag, StandingReader standings, Tuning? tuning)
{
    /// <summary>How many sections may stand in a row of "like", each on the one before.</summary>
    private const int LongestChain = 64;

    private readonly BarLineReader bars = new(bag);
    private PickBlock? pick;
    private bool inPattern;

    private SectionSyntax Current => syntax.Sections[^1];

    public void Read()
    {
        foreach (var line in syntax.Lines.Where(l => !l.IsBlank).SkipWhile(l => l.Keyword.Text != "section"))
            ReadLine(line);
        EndPick();
        foreach (var section in syntax.Sections)
            SectionRules.Check(section, bag);
        TakenWords.Check(syntax, bag);
    }

    private void ReadLine(LineSyntax line)
    {
        var word = line.Keyword.Text;
        if (pick is not null && SongSyntax.IsString(line))
        {
            pick.Strings.Read(line);
            Current.LastLine = line;
            return;
        }
        EndPick();
        inPattern = word == SongSyntax.Pattern ? !line.BodyText.Contains('|') : inPattern && SongSyntax.IsString(line);
        if (inPattern || word == SongSyntax.Pattern)
            return;
        if (word == "section")
            Start(line);
        else if (word == "anchors")
            Current.AnchorLines.Add(line);
        else if (word == "meter")
            ReadMeter(line);
        else if (word == "key")
            ReadKey(line);
        else if (word == SongSyntax.Tune && !line.BodyText.Contains('|'))
            ReadTunePlayer(line);
        else if (SongSyntax.IsPart(word, out var part))
            ReadPart(line, part);
        else if (Pitch.TryParse(word, out _) && line.BodyText.Contains('|'))
            bag.Add(DiagnosticCode.OutsideSection, line.Keyword.Span, "A string's line stands in a pick block.", "Put a line 'pick' before it.");
        else if (word != "shape" && !SongSyntax.FactWords.Contains(word))
            OutlineReader.Unknown(bag, line);
        if (SongSyntax.AllWords.Contains(word) && word != "section")
            Current.LastLine = line;
    }

    private void Start(LineSyntax line)
    {
        var body = line.BodyText;
        var standing = standings.ReadOne(line, Standing.Decided);
        if (body.Length == 0)
            bag.Add(DiagnosticCode.MissingValue, line.Keyword.Span, "A section has a name, as in section Verse 1.");
        var at = Quoted.Is(body) ? -1 : body.LastIndexOf(" like ", StringComparison.Ordinal);
        var name = Quoted.Unwrap(at < 0 ? body : body[..at].TrimEnd());
        syntax.Sections.Add(new(line, name, at < 0 ? null : FindLike(line, at + 6), standing));
    }

    private SectionSyntax? FindLike(LineSyntax line, int at)
    {
        var raw = line.BodyText[at..];
        var name = Quoted.Unwrap(raw.Trim());
        var span = Span.FromTo(line.Body.End - raw.TrimStart().Length, line.Body.End);
        var found = syntax.Sections.LastOrDefault(s => s.Name == name);
        if (found is null)
            bag.Add(DiagnosticCode.UnknownSection, span, $"No section before this one is called '{name}'.",
                NearestWord.Suggest(name, syntax.Sections.Select(s => s.Name)) ?? "Put the whole name in double quotes if 'like' is part of it.");
        else if (Chain(found) >= LongestChain)
            bag.Add(DiagnosticCode.UnknownSection, span, $"More than {LongestChain} sections stand on one another here.",
                "Write 'like' with the first of them.");
        else
            return found;
        return null;
    }

    private static int Chain(SectionSyntax section)
    {
        var length = 1;
        for (var like = section.Like; like is not null; like = like.Like)
            length++;
        return length;
    }

    private void ReadMeter(LineSyntax line)
    {
        standings.Refuse(line, "A change of meter");
        var words = line.Words();
        var from = Current.NextBar();
        var placed = words.Length == 3 && words[1].Text == "from" && int.TryParse(words[2].Text, out from) && from is >= 1 and <= 9999;
        if (words.Length > 0 && Meter.TryParse(words[0].Text, out var meter) && (words.Length == 1 || placed))
            Current.Meters.Add((meter, from, line));
        else
            bag.Add(DiagnosticCode.BadMeter, line.Body.Length > 0 ? line.Body : line.Keyword.Span,
                "In a section, a meter holds from the bar after the last one written so far, or from a bar that it names, as in meter 2/4 from 7.");
    }

    private void ReadKey(LineSyntax line)
    {
        if (KeyLine.Read(line, Current.NextBar(), bag, standings) is { } key)
            Current.Keys.Add(key);
    }

    private void ReadTunePlayer(LineSyntax line)
    {
        standings.Refuse(line, "A section's line that says who sings or plays the tune");
        Current.TunePlayer = TunePlayerLine.Read(line, bag);
    }

    private void ReadPart(LineSyntax line, SongPart part)
    {
        if (UsesPattern(line, part))
        {
            UsePattern(line, part);
            return;
        }
        if (part == SongPart.Pick)
        {
            StartPick(line);
            return;
        }
        var (place, read) = bars.Read(line, part);
        Add(line, part, place, null, [new(line, new(part), read)], []);
    }

    /// <summary>A strum or pick line with words and no bars plays a pattern by name.</summary>
    private static bool UsesPattern(LineSyntax line, SongPart part) =>
        part is SongPart.Strum or SongPart.Pick && line.Body.Length > 0 && !line.BodyText.Contains('|')
        && line.Words()[0].Text is not ("from" or BarLineReader.Throughout);

    private void UsePattern(LineSyntax line, SongPart part)
    {
        var words = line.Words();
        var named = words.Length > 2 && words[^2].Text == "from" ? words.Length - 2 : words.Length;
        var at = Span.FromTo(words[0].Start, words[named - 1].Span.End);
        var name = Quoted.Unwrap(at.In(line.Text));
        var first = 0;
        if (named < words.Length && !BarLineReader.TryReadBar(words[^1].Text, out first))
            bag.Add(DiagnosticCode.BadFrom, words[^1].Span,
                "After 'from' comes the number of the section's bar (1 is its first) that the pattern starts with, as in from 3.");
        else if (syntax.Patterns.FirstOrDefault(p => p.Name == name) is not { } pattern)
            bag.Add(DiagnosticCode.UnknownPattern, at, $"No pattern is called '{name}'; bars of a section's own stand between |.",
                NearestWord.Suggest(name, syntax.Patterns.Select(p => p.Name))
                    ?? $"Name it before the first section, as in pattern {name} | d . du . |, or write the bars here.");
        else if (pattern.Part != part)
            bag.Add(DiagnosticCode.UnknownPattern, at, $"The pattern {name} is {(pattern.Part == SongPart.Pick ? "picked" : "strummed")}.",
                $"Write '{pattern.Part.ToString().ToLowerInvariant()} {name}'.");
        else
            Add(line, part, new(first == 0 ? null : first, true), pattern.Meter, [.. pattern.Voices.Select(v => v with { Line = line })], []);
    }

    private void StartPick(LineSyntax line)
    {
        var words = line.Words();
        var place = words.Length == 0 || words[0].Text is "from" or BarLineReader.Throughout ? bars.ReadPlace(words, SongPart.Pick) : default;
        pick = new(line, place, standings.ReadAll(line), new(bag, bars, tuning));
    }

    private void EndPick()
    {
        if (pick is not { } block)
            return;
        pick = null;
        Add(block.Header, SongPart.Pick, block.Place, null, block.Strings.Finish(block.Header), block.Standings);
    }

    /// <param name="header">The line that says where the bars start.</param>
    private void Add(LineSyntax header, SongPart part, BarsPlace place, Meter? meter, ImmutableArray<VoiceLine> voices, ImmutableArray<StandingEntry> block)
    {
        if (FirstBar(header, part, place) is not { } first)
            return;
        foreach (var voice in voices.Where(v => !place.Repeats || !v.Bars.IsEmpty))
            Current.Lines.Add(new(voice.Line, voice.Voice, first, voice.Bars, standings.ReadAll(voice.Line), block) { Repeats = place.Repeats,
                WrittenFor = meter });
    }

    /// <summary>Null where a pattern starts with that bar already.</summary>
    private int? FirstBar(LineSyntax header, SongPart part, BarsPlace place)
    {
        var next = Current.NextBar(part);
        var first = place.From ?? (place.Repeats ? Current.FirstUnwritten(part) : next);
        if (place.From is not null || place.Repeats)
            Current.Placed.Add(part);
        if (place.Repeats && Current.Lines.Any(l => l.Repeats && l.Voice.Part == part && l.FirstBar == first))
        {
            bag.Add(DiagnosticCode.BarTwice, header.Keyword.Span, $"A pattern of {header.Keyword.Text} starts with bar {first} already.",
                "Say with 'from' where this one starts, or keep one of them.");
            return null;
        }
        if (first >= next || (place.Repeats && place.From is null))
            return first;
        bag.Add(DiagnosticCode.BarTwice, header.Keyword.Span, $"Bar {first} of {header.Keyword.Text} is given already; the next one is {next}.");
        return next;
    }

    private sealed record PickBlock(LineSyntax Header, BarsPlace Place, ImmutableArray<StandingEntry> Standings, StringLines Strings);
}
