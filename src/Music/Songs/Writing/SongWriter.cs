using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Writing;

/// <summary>Writes a whole song file.</summary>
internal sealed class SongWriter(Song sounding)
{
    private readonly Song song = sounding.HandNames is { } raise ? SongTransposition.NamesOf(sounding, -raise) : sounding;
    private readonly StringBuilder text = new();

    public string Write()
    {
        WriteFacts();
        WriteShapes();
        for (var i = 0; i < song.Sections.Length; i++)
            WriteSection(i);
        return text.ToString();
    }

    private void WriteFacts()
    {
        var facts = Facts().Where(f => f.Value.Length > 0).ToList();
        var width = Math.Min(40, facts.Where(f => f.Standing.Length > 0).Select(f => f.Value.Length).DefaultIfEmpty(0).Max());
        foreach (var (fact, value, standing) in facts)
            text.Append($"{fact.ToString().ToLowerInvariant(),-10} {(standing.Length > 0 ? value.PadRight(width) + "  " + standing : value)}\n");
    }

    private IEnumerable<(SongFact Fact, string Value, string Standing)> Facts()
    {
        yield return (SongFact.Title, PlainText.Write(song.Title), "");
        yield return (SongFact.Player, song.Player is { } player ? PlainText.Write(player) : "", "");
        yield return (SongFact.Album, song.Album is { } album ? PlainText.Write(album) : "", "");
        yield return (SongFact.Recording, song.Recording is { } recording ? RecordingText(recording) : "", "");
        yield return Line(SongFact.Pitch, song.ReferencePitch, a4 => string.Create(CultureInfo.InvariantCulture, $"A4 = {a4.Value} Hz"));
        yield return Line(SongFact.Tuning, song.Tuning, t => t.ToString());
        yield return Line(SongFact.Capo, song.Capo, c => CapoText(c, song.Tuning.Value));
        yield return (SongFact.Names, song.HandNames is null ? "" : "hand", "");
        yield return Line(SongFact.Meter, song.Meter, m => m.ToString());
        yield return (SongFact.Count, song.Counting == Counting.Divisions ? "eighths" : "", "");
        yield return Line(SongFact.Tempo, song.Tempo, t => t.ToString("0.##########", CultureInfo.InvariantCulture));
        yield return Line(SongFact.Key, song.Key, k => k.ToString());
        if (song.TunePlayer is { } tune)
            yield return Line(SongFact.Tune, tune, p => p.InWords());
        if (song.Harp is { } harp)
            yield return Line(SongFact.Harp, harp, h => h.ToString());
    }

    /// <summary>A fact that nobody stated stays unstated.</summary>
    private static (SongFact, string, string) Line<T>(SongFact fact, Fact<T> stated, Func<T, string> write) =>
        (fact, stated.Standing.Kind == StandingKind.Assumed ? "" : write(stated.Value), StandingText.Write(stated.Standing));

    private static string RecordingText(RecordingReference recording)
    {
        var path = PlainText.Write(recording.Path, always: recording.Path.Split(' ').Any(w => w is "length" or "sha256"));
        return path
            + (recording.Length is { } length ? $"  length {TimeText.Write(length)}" : "")
            + (recording.ContentHash is { } hash ? $"  sha256 {hash}" : "");
    }

    private static string CapoText(Capo capo, Tuning tuning) =>
        capo.Fret == 0 ? "none" : capo.IsPartial ? $"{capo.Fret} on {string.Join(' ', capo.OnlyStrings.Reverse().Select(i => tuning.Strings[i]))}"
            : $"{capo.Fret}";

    private void WriteShapes()
    {
        if (song.Shapes.IsEmpty)
            return;
        text.Append('\n');
        var name = Math.Max(8, song.Shapes.Max(s => s.Name.Length));
        var width = song.Shapes.Max(s => Frets(s.Shape).Length);
        foreach (var shape in song.Shapes)
            text.Append($"{"shape",-10} {shape.Name.PadRight(name)}  {Frets(shape.Shape).PadRight(width)}  {StandingText.Write(shape.Standing)}".TrimEnd())
                .Append('\n');
    }

    private static string Frets(Shape shape) => shape.Fingers.IsEmpty ? shape.ToString() : $"{shape}  fingers {string.Concat(shape.Fingers)}";

    private void WriteSection(int index)
    {
        var section = song.Sections[index];
        var (like, difference) = LikeOf(index);
        var name = PlainText.Write(section.Name, always: section.Name.Contains(" like "));
        text.Append($"\n{"section",-10} {name}{(like is null ? "" : $" like {PlainText.Write(like, always: like.Contains(" like "))}")}");
        text.Append(StandingText.Write(section.Standing) is { Length: > 0 } standing ? $"  {standing}\n" : "\n");
        WriteAnchors(section);
        if (like is null)
        {
            WriteKeys(section);
            if (section.TunePlayer is { } player)
                text.Append($"{SongSyntax.Tune,-10} {player.InWords()}\n");
        }
        new SectionWriter(section, song.Meter.Value, song.Tuning.Value, text, difference).Write();
    }

    /// <summary>The section before this one that it shares most parts with, the first of such, and in what it differs; nulls where it is like none.</summary>
    private (string? Name, LikeDifference? Difference) LikeOf(int index)
    {
        var before = song.Sections[..index];
        var found = before.Where(s => before.Last(b => b.Name == s.Name) == s)
            .Select(s => (s.Name, Difference: LikeDifference.Of(song.Sections[index], s, song.Tuning.Value))).Where(f => f.Difference is not null).ToArray();
        return found.Length == 0 ? (null, null) : found.OrderBy(f => f.Difference!.Bars).First();
    }

    private void WriteKeys(Section section)
    {
        foreach (var key in section.Keys)
            text.Append($"{"key",-10} {KeyText.Write(key.Key, key.Bar)}  {StandingText.Write(key.Standing)}".TrimEnd()).Append('\n');
    }

    private void WriteAnchors(Section section)
    {
        foreach (var line in AnchorLines.Of(section.Anchors))
            text.Append(line).Append('\n');
    }
}
