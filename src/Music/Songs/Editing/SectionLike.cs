using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Editing;

/// <summary>
/// Makes a section like an earlier one: it takes over all that was only heard in it, with the meter and key; what a person decided in it otherwise stays,
/// and so do its anchors and its words.
/// </summary>
internal static class SectionLike
{
    private static readonly SongPart[] parts = [SongPart.Chords, SongPart.Strum, SongPart.Tune, SongPart.Harp, SongPart.Pick];

    public static SongDocument Made(SongDocument document, Song song, int section, int like)
    {
        var (now, model) = (song.Sections[section], song.Sections[like]);
        if (like >= section || song.Sections.Take(section).Select(s => s.Name).ToList().LastIndexOf(model.Name) != like)
            throw new ArgumentException($"A section is like an earlier one, and {model.Name} must be the last of that name before it.", nameof(like));
        if (!now.Bars.Select(b => b.Meter).SequenceEqual(model.Bars.Select(b => b.Meter)))
            throw new ArgumentException($"{now.Name} has {Told(now)} and {model.Name} {Told(model)}; a section is like one of as many bars of the same meters. "
                + "Move its border first.", nameof(like));
        var bare = SongText.Parse(TextEdit.Apply(document.Text, Edits(document.Syntax, section, model.Name)), document.FileName);
        return now.Bars.Zip(model.Bars).Aggregate(bare, (d, bars) => Decided(d, section, now.Bars[0].Number, bars.First, bars.Second));
    }

    private static string Told(Section section) => section.Bars.Length == 1 ? "1 bar" : $"{section.Bars.Length} bars";

    private static IEnumerable<TextEdit> Edits(SongSyntax syntax, int index, string like)
    {
        var (section, lines) = (syntax.Sections[index], new LineEdits(syntax));
        var words = section.Lines.Where(l => !parts.Contains(l.Voice.Part)).Select(l => l.Line).ToHashSet();
        var gone = section.Lines.Select(l => l.Line).Where(l => !words.Contains(l)).Concat(Blocks(syntax, section)).Concat(section.Meters.Select(m => m.Line))
            .Concat(section.Keys.Select(k => k.Line)).Distinct();
        return
        [
            new(section.Header.Body, SectionEdits.Head(section.Name, like)),
            .. lines.SetStanding(section.Header, Standing.Decided),
            .. gone.Select(lines.WithoutLine),
        ];
    }

    /// <summary>The lines "pick" of the section's own blocks.</summary>
    private static IEnumerable<LineSyntax> Blocks(SongSyntax syntax, SectionSyntax section) =>
        syntax.Lines.Where(l => l.Keyword.Text == "pick" && l.Whole.Start > section.Header.Whole.Start && l.Whole.Start <= section.LastLine.Whole.Start);

    /// <summary>What a person decided in a bar and the model hasn't.</summary>
    private static SongDocument Decided(SongDocument document, int section, int first, Bar now, Bar model)
    {
        var number = now.Number;
        foreach (var chord in New(now.Chords, model.Chords))
            document = document.WithChord(number, chord.Start, chord.Value.Name, chord.Standing);
        if (New(now.Strums, model.Strums).Any())
            document = document.WithStrokes(section, [number - first + 1], [.. now.Strums.Select(s => (s.Start, s.Value))]);
        foreach (var note in New(now.Picked, model.Picked))
            document = document.WithPicked(number, note.Start, note.Value);
        foreach (var note in New(now.Tune, model.Tune))
            document = document.WithTune(number, note.Start, note.Value);
        foreach (var breath in New(now.Harp, model.Harp).GroupBy(h => h.Start))
            document = document.WithBreath(number, breath.Key, [.. breath.Select(h => h.Value)]);
        return document;
    }

    private static IEnumerable<Claim<T>> New<T>(IEnumerable<Claim<T>> now, IEnumerable<Claim<T>> model) =>
        now.Where(c => c.Standing.Kind is StandingKind.Decided or StandingKind.Corrected
            && !model.Any(m => m.Start == c.Start && EqualityComparer<T>.Default.Equals(m.Value, c.Value)));
}
