using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs.Editing;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>
/// A song file as it stands, byte for byte, and the song that it says. Every edit gives a new document in which only the bytes of the
/// thing edited have changed: spacing, comments and line ends stay. Sections are counted from 0, bars through the song from 1, beats in a bar from 0.
/// Edits name chords and keys as the song does, by what sounds; where the file's names are the hand's, those are written.
/// </summary>
public sealed class SongDocument
{
    internal SongDocument(string fileName, Song? song, ImmutableArray<Diagnostic> diagnostics, SongSyntax syntax)
    {
        FileName = fileName;
        Song = song;
        Diagnostics = diagnostics;
        Syntax = syntax;
    }

    public string FileName { get; }

    /// <summary>Null when a diagnostic is an error.</summary>
    public Song? Song { get; }

    /// <summary>In the order of their places.</summary>
    public ImmutableArray<Diagnostic> Diagnostics { get; }

    /// <summary>The file's text, unchanged: comments, spaces and line ends among it.</summary>
    public string Text => Syntax.Source.Text;

    internal SongSyntax Syntax { get; }

    /// <summary>Sets a fact to a value as the file writes it ("D mixolydian"), on its line or on a new one; its standing stays when none is given.</summary>
    public SongDocument WithFact(SongFact fact, string value, Standing? standing = null) =>
        Edited(new FactEdits(Syntax).SetFact(fact, fact == SongFact.Key ? WrittenKey(OneLine(value)) : OneLine(value), standing));

    public SongDocument WithFactStanding(SongFact fact, Standing standing) => Edited(new FactEdits(Syntax).SetFactStanding(fact, standing));

    /// <summary>Replaces the shape of a name, or adds it behind the others.</summary>
    public SongDocument WithShape(string name, Shape shape, Standing? standing = null) =>
        Edited(new FactEdits(Syntax).SetShape(Written(name), shape, standing));

    public SongDocument WithShapeStanding(string name, Standing standing) => Edited(new FactEdits(Syntax).SetShapeStanding(Written(name), standing));

    /// <summary>
    /// Puts a chord (by its name, "G/D@low") at a beat of a bar; it lasts to the next chord of the bar. A bar that the section
    /// took over from another gets a line of its own, and the other section stays as it is.
    /// </summary>
    public SongDocument WithChord(int barNumber, Beats beat, string name, Standing? standing = null) =>
        Edited(new ChordEdits(Syntax, SongMeter).SetChord(barNumber, beat, Written(name), standing ?? Standing.Decided));

    /// <summary>Sets the standing of the chord that starts at a beat of a bar.</summary>
    public SongDocument WithChordStanding(int barNumber, Beats beat, Standing standing) =>
        Edited(new ChordEdits(Syntax, SongMeter).SetStanding(barNumber, beat, standing));

    /// <summary>Sets the standing of a part's lines in a section; standings of single bars stay.</summary>
    public SongDocument WithPartStanding(int section, SongPart part, Standing standing) =>
        Edited(new SectionEdits(Syntax).SetPartStanding(section, part, standing));

    /// <summary>Names a section anew, decided; sections that are like it stay so.</summary>
    public SongDocument WithSectionName(int section, string name) => Edited(new SectionEdits(Syntax).SetName(section, OneLine(name)));

    /// <summary>
    /// Makes a section like an earlier one, decided: what was only heard in it is taken over instead; what was decided in it otherwise, its words and its
    /// times stay.
    /// </summary>
    /// <param name="like">The earlier section; it has as many bars.</param>
    public SongDocument WithSectionLike(int section, int like) =>
        SectionLike.Made(this, Song ?? throw new InvalidOperationException("A file with mistakes has no sections to compare."), section, like);

    public SongDocument WithSectionStanding(int section, Standing standing) => Edited(new SectionEdits(Syntax).SetStanding(section, standing));

    /// <summary>
    /// The same song under the other names: the hand's, as its shapes are called without the capo, or those of what sounds. Null where both are one:
    /// without a capo, and under one that stops only some strings.
    /// </summary>
    public SongDocument? WithNames(bool hand)
    {
        if (Song is not { } song || CapoNames.Of(song) is not { } names)
            return null;
        if (names.HandFirst == hand)
            return this;
        var by = hand ? -names.Raise : names.Raise;
        var key = song.Key.Value with { Tonic = song.Key.Value.Tonic - (hand ? names.Raise : Interval.Unison) };
        var facts = new FactEdits(Syntax);
        var assumed = song.Key.Standing == Standing.Assumed ? Standing.Assumed : null;
        return Edited([
            .. new NameEdits(Syntax, by).Move(),
            .. facts.SetFact(SongFact.Key, $"{key}", assumed),
            .. facts.SetFact(SongFact.Names, hand ? "hand" : "sound", null),
        ]);
    }

    /// <summary>Ties a bar of a section (1 = its first) to a time, anew or instead of the time that it had.</summary>
    public SongDocument WithAnchor(int section, int bar, Seconds at, Standing? standing = null) =>
        Edited(new SectionEdits(Syntax).SetAnchor(section, bar, at, standing ?? Standing.Decided));

    /// <summary>Takes the anchor of a bar's start, or of a beat in it, away.</summary>
    public SongDocument WithoutAnchor(int section, int bar, Beats beat = default) => Edited(new SectionEdits(Syntax).RemoveAnchor(section, bar, beat));

    /// <summary>
    /// Ties a stretch of bars (through the song from 1; one past the last is the song's end) anew: all anchors in it go, and these decided ones come.
    /// </summary>
    public SongDocument WithAnchors(int firstBar, int lastBar, IReadOnlyList<(int Bar, Seconds At)> anchors) =>
        AnchorEdits.Retied(this, Song ?? throw new InvalidOperationException("A file with mistakes has no bars that could be tied."), firstBar, lastBar,
            anchors);

    internal SongDocument WithDecidedAnchors(int section) => Edited(new SectionEdits(Syntax).DecideAnchors(section));

    /// <summary>Puts other syllables into bars of a section, from a bar on (1 = its first); the rest of what is sung stays.</summary>
    public SongDocument WithSung(int section, int firstBar, IReadOnlyList<ImmutableArray<Claim<string>>> bars) =>
        Edited(new SungEdits(Syntax, SongMeter).SetBars(section, firstBar, bars));

    /// <summary>Puts the same strokes into some bars of a section (1 = its first), decided; a pattern goes on in the others. None is silence.</summary>
    public SongDocument WithStrokes(int section, IReadOnlyList<int> bars, IReadOnlyList<(Beats Start, Stroke Stroke)> strokes) =>
        Edited(new StrokeEdits(Syntax, SongMeter).SetBars(section, bars, strokes));

    /// <summary>Puts a picked note at a beat of a bar, decided, in place of what starts there on its string; it rings until the string's next sign.</summary>
    public SongDocument WithPicked(int barNumber, Beats at, PickedNote note) =>
        WithSign(new(SongPart.Pick, barNumber, at, note.StringIndex), PickedText.Of(note));

    /// <summary>Puts a note of the tune at a beat of a bar, decided.</summary>
    public SongDocument WithTune(int barNumber, Beats at, TuneNote note) => WithSign(new(SongPart.Tune, barNumber, at),
        (Syntax.HandNames is { } raise ? note with { Pitch = note.Pitch - raise } : note).ToString());

    /// <summary>Puts what is sounded on one breath of the harmonica at a beat of a bar, decided.</summary>
    /// <param name="holes">All blown or all drawn.</param>
    public SongDocument WithBreath(int barNumber, Beats at, params IReadOnlyList<HarpNote> holes) =>
        WithSign(new(SongPart.Harp, barNumber, at), string.Join('&', holes));

    /// <summary>Puts what a song file writes ("3h5~", "-4&amp;-5", "/A4") at a place, decided; what it can't mean there is told by the diagnostics.</summary>
    public SongDocument WithNote(NotePlace place, string written) =>
        written.Length == 0 || written[0] == '~' || written.AsSpan().ContainsAny(" \t\r\n|;,\"") ? throw new ArgumentException(
            $"'{written}' isn't one sign; write one note, as a song file does.", nameof(written)) : WithSign(place, written);

    /// <summary>Ends what sounds in a voice.</summary>
    public SongDocument WithSilence(NotePlace place) => WithSign(place, "_");

    /// <summary>Takes away what starts at a place; what came before goes on.</summary>
    public SongDocument WithNothing(NotePlace place) => WithSign(place, ".");

    /// <summary>Sets the key from a bar of a section on (1 = its first); where a line of the section changes the key there already, that line.</summary>
    public SongDocument WithKeyChange(int section, int bar, Key key, Standing? standing = null) =>
        Edited(new SectionEdits(Syntax).SetKey(section, bar, Written(key), standing));

    /// <summary>Takes the section's own change of key at a bar away.</summary>
    public SongDocument WithoutKeyChange(int section, int bar) => Edited(new SectionEdits(Syntax).RemoveKey(section, bar));

    /// <summary>Adds a section at the end: one like an earlier one, or one of empty bars.</summary>
    public SongDocument WithSection(string name, string? like = null, int bars = 4) => Edited([new SectionEdits(Syntax).Add(name, like, bars)]);

    private Meter SongMeter => Syntax.Facts.TryGetValue(SongFact.Meter, out var line) && Meter.TryParse(line.BodyText, out var meter) ? meter
        : Meter.CommonTime;

    private SongDocument WithSign(NotePlace place, string sign) =>
        Edited(new NoteEdits(Syntax, SongMeter, (Song ?? throw new InvalidOperationException("A file with mistakes has no strings to pick.")).Tuning.Value)
            .Set(place, sign));

    private string Written(string name) => Syntax.HandNames is { } raise ? WrittenName.Moved(OneLine(name), -raise) : OneLine(name);

    /// <summary>A key as the file names it: where names are the hand's, without the capo.</summary>
    internal Key Written(Key key) => Syntax.HandNames is { } raise ? key with { Tonic = key.Tonic - raise } : key;

    /// <summary>The song's key decides how the hand's names are spelled, so it is moved by the capo anew.</summary>
    private string WrittenKey(string value) =>
        Song is { HandNames: not null } song
            && Key.TryParse(value, out var key) ? $"{key with { Tonic = key.Tonic - CapoNames.RaiseTo(key, song.Capo.Value) }}" : value;

    private SongDocument Edited(IEnumerable<TextEdit> edits) => SongText.Parse(TextEdit.Apply(Text, edits), FileName);

    private static string OneLine(string text) =>
        text.AsSpan().ContainsAny('\r', '\n') ? throw new ArgumentException($"'{text}' has a line end in it; a value of a song file stands on one line.",
            nameof(text)) : text;
}
