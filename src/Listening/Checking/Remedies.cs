using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking;

/// <summary>
/// Gives findings the edit that takes their suggestion. Meter and tempo have none: a song felt twice as fast, or in another meter, has other
/// bars, and those are written anew.
/// </summary>
internal static class Remedies
{
    public static Finding Anchoring(this Finding finding, Song song, Bar bar)
    {
        var (section, inSection) = Place(song, bar.Number);
        return finding.Taking($"the start of bar {bar.Number}", (d, words) => TimeText.TryRead(words, out var at) ? d.WithAnchor(section, inSection, at) : d);
    }

    public static Finding Naming(this Finding finding, Bar bar, Claim<ChordUse> chord) =>
        finding.Taking($"the chord at bar {bar.Number}, {chord.Start} beats in", (d, words) => d.WithChord(bar.Number, chord.Start, words));

    public static Finding Fretting(this Finding finding, Song song, string name, Shape better)
    {
        var bars = song.Bars.Count(b => b.Chords.Any(c => c.Value.Name == name));
        var offered = finding with { Suggestion = better.ToString() };
        var remedy = new Remedy($"shape {name}", d => d.WithShape(name, better, Standing.Decided)) { Reach = bars > 1 ? $"this changes {name} in {bars} bars"
            : null };
        return song.Shapes.Any(s => s.Name == name) ? offered with { Remedy = remedy } : offered;
    }

    public static Finding Stating(this Finding finding, SongFact fact) =>
        finding.Taking(fact.ToString().ToLowerInvariant(), (d, words) => d.WithFact(fact, words, Standing.Decided));

    public static Finding Tuning(this Finding finding, HeardTuning heard) =>
        finding.Taking("tuning and capo",
            (d, _) => d.WithFact(SongFact.Tuning, heard.Tuning.ToString(), Standing.Decided).WithFact(SongFact.Capo, heard.Capo == Capo.None ? "none"
            : heard.Capo.ToString(), Standing.Decided));

    public static Finding ChangingKey(this Finding finding, int section, KeyChange change) =>
        finding.Taking($"the key from bar {change.Bar} of section {section + 1}",
            (d, words) => d.WithKeyChange(section, change.Bar, Key.Parse(words), Standing.Decided));

    private static Finding Taking(this Finding finding, string target, Func<SongDocument, string, SongDocument> put) =>
        finding.Suggestion is { } words ? finding with { Remedy = new(target, d => put(d, words)) } : finding;

    /// <summary>A bar's section, from 0, and its number there, from 1.</summary>
    private static (int Section, int Bar) Place(Song song, int number)
    {
        var section = 0;
        for (; number > song.Sections[section].Bars.Length; section++)
            number -= song.Sections[section].Bars.Length;
        return (section, number);
    }
}
