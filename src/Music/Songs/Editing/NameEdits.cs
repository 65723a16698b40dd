using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Editing;

/// <summary>Writes a file's names over by an interval: those of chords, shapes and keys, and the tune's notes.</summary>
internal sealed class NameEdits(SongSyntax syntax, Interval by)
{
    /// <summary>All edits but the song's key and the line that says whose the names are.</summary>
    public IEnumerable<TextEdit> Move() =>
    [
        .. syntax.Shapes.Select(line => line.Words() is [var name, ..] ? InColumn(line, name.Span, WrittenName.Moved(name.Text, by)) : (TextEdit?)null)
            .OfType<TextEdit>(),
        .. syntax.Sections.SelectMany(s => s.Keys).Select(k => new TextEdit(KeyLine.KeyAt(k.Line), $"{k.Key with { Tonic = k.Key.Tonic + by }}")),
        .. syntax.Sections.SelectMany(s => s.Lines).SelectMany(Cells),
    ];

    private IEnumerable<TextEdit> Cells(PartLine line) => line.Voice.Part is not (SongPart.Chords or SongPart.Tune) ? []
        : line.Bars.SelectMany(b => b.Leaves).Where(l => !l.GoesOn && !l.Silences)
            .Select(leaf => InColumn(line.Line, leaf.Raw.Span, Moved(line.Voice.Part, leaf) + leaf.Raw.Text[leaf.Unmarked.Length..]));

    private string Moved(SongPart part, Leaf leaf) =>
        part == SongPart.Chords ? WrittenName.Moved(leaf.Unmarked, by)
        : TuneNote.TryParse(leaf.Unmarked, out var note) ? $"{note with { Pitch = note.Pitch + by }}"
        : leaf.Unmarked;

    private static TextEdit InColumn(LineSyntax line, Span at, string put) => CellEdit.InColumn(line.Text, at, put);
}
