using Harkbook.Jobs.Files;
using System.Collections.Immutable;
using System.Globalization;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Practice;
using Harkbook.Music.Songs;

namespace Harkbook.App.Choices;

/// <summary>What a command line asks to practise, and how.</summary>
internal static class PracticeWish
{
    /// <param name="change">Two chords; empty for the song's widest change; null where none is asked for.</param>
    public static void Require(string[]? change, bool record)
    {
        if (change?.Length == 1)
            throw new UsageException($"--change {change[0]}: give two chords, as in --change C G7, or none for the song's widest change.");
        if (change is not null && record)
            throw new UsageException(
                "--record plays bars of the recording, and a chord change alone isn't in it; give --section or --bars, or leave --record out.");
    }

    public static ImmutableArray<double> ReadSpeeds(string text)
    {
        var speeds = text.Split([',', ' '], StringSplitOptions.RemoveEmptyEntries)
            .Select(t => double.TryParse(t, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var s) ? s : 0).ToArray();
        return speeds.Length is >= 1 and <= 8 && speeds.All(s => s is >= 25 and <= 150)
            ? [.. speeds.Select(s => s / 100)]
            : throw new UsageException($"--speeds {text}: give one to eight percents from 25 to 150, as in 60,75,90,100.");
    }

    public static RoundLead ReadBetween(string? word) => word switch
    {
        null => RoundLead.CountEachSpeed,
        "count" => RoundLead.CountEachRound,
        "rest" => RoundLead.RestEachRound,
        _ => throw new UsageException($"--between {word}: give count or rest."),
    };

    /// <summary>The bars asked for; without, the first section that is sung and struck, or struck, or played at all.</summary>
    public static Practised Passage(SongFolder opened, (int First, int Last)? asked)
    {
        var (first, last) = asked ?? Ends(FirstWorth(opened.Song));
        return opened.Song.Bars.Any(b => b.Number >= first && b.Number <= last && IsPlayed(b))
            ? new(opened.Song, first, last, PlaceWords.Bars(first, last), FolderNames.Bars(first, last))
            : throw new UserException(
                $"{opened.SongPath}: nothing is played or sung in bars {first} to {last}. Choose other bars, or add chords, strokes or picked notes to them.");
    }

    private static Section FirstWorth(Song song)
    {
        Section[] sections = [.. song.Sections.Where(s => !s.Bars.IsEmpty)];
        return sections.FirstOrDefault(s => s.Bars.Any(b => !b.Sung.IsEmpty && IsStruck(b)))
            ?? sections.FirstOrDefault(s => s.Bars.Any(IsStruck))
            ?? sections.FirstOrDefault(s => s.Bars.Any(IsPlayed))
            ?? sections[0];
    }

    private static (int First, int Last) Ends(Section section) => (section.Bars[0].Number, section.Bars[^1].Number);

    private static bool IsStruck(Bar bar) => !bar.Strums.IsEmpty || !bar.Picked.IsEmpty;

    private static bool IsPlayed(Bar bar) => IsStruck(bar) || !bar.Chords.IsEmpty || !bar.Sung.IsEmpty;

    /// <param name="names">Two chords as the song's file names them, or none for the song's widest change.</param>
    public static Practised Drill(SongFolder opened, string[] names)
    {
        var written = CapoNames.Of(opened.Song);
        string Name(ChordUse chord) => written?.First(chord.Name) ?? chord.Name;
        var (from, to) = names is [var first, var second] ? (Called(first), Called(second)) : ChangeDrill.Widest(opened.Song)
            ?? throw new UserException(
                $"{opened.SongPath}: no shape changes in this song. Add 'shape' lines for its chords, or name two chords behind --change.");
        if (from.Name == to.Name)
            throw new UsageException($"--change {Name(from)} {Name(to)}: these are one chord; give two.");
        var drill = ChangeDrill.Of(opened.Song, from, to);
        var kept = drill.FingersKept.Count == 0 ? ""
            : $"; {(drill.FingersKept.Count == 1 ? "finger" : "fingers")} {string.Join(", ", drill.FingersKept)} can stay";
        return new(drill.Song, 1, 2, $"{Name(from)} to {Name(to)}{kept}", FolderNames.Change(Name(from), Name(to)));

        ChordUse Called(string name)
        {
            var chords = ChangeDrill.Chords(opened.Song);
            return chords.FirstOrDefault(c => Name(c) == name)
                ?? throw new UsageException($"--change {name}: no bar of the song has this chord; it has {string.Join(", ", chords.Select(Name))}.");
        }
    }
}
