using System.Collections.Immutable;
using Harkbook.Music.Analysis.Hands;
using Harkbook.Music.Analysis.Harmony.Remarks;
using Harkbook.Music.Analysis.Layers;
using Harkbook.Music.Analysis.Retuning;
using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Music.Analysis.SecondInstruments;
using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Analysis.Tunes;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Explaining;

/// <summary>What a teacher says about a song, in the order in which it is told. The song says what is played; nothing here listens.</summary>
public sealed record Explanation(Song Song, ImmutableArray<Remark> Remarks)
{
    /// <summary>Explains a song, and what it shares with others of its songbook where those are given.</summary>
    public static Explanation Of(Song song, IReadOnlyList<Song>? others = null) =>
        new(song, [.. All(WrongShapes.Without(song), others ?? []).OrderBy(r => r.Topic)]);

    /// <summary>What is said of some bars, and not of the whole song.</summary>
    public Explanation Within(int firstBar, int lastBar) =>
        this with { Remarks = [.. Remarks.Where(r => r.Places.Any(p => p.Bar >= firstBar && p.Bar <= lastBar))] };

    /// <summary>The topics that have something to say, in order.</summary>
    public IEnumerable<(RemarkTopic Topic, ImmutableArray<Remark> Remarks)> Topics =>
        Remarks.GroupBy(r => r.Topic).Select(g => (g.Key, g.ToImmutableArray()));

    /// <summary>What to keep in mind: shapes that contradict their names and are left out, chords that are mostly only heard; null where
    /// there is nothing.</summary>
    public string? Caution => (Heard, Contradicted) is (null, null) ? null : string.Join(' ', new[] { Contradicted, Heard }.OfType<string>());

    private string? Contradicted => WrongShapes.Of(HandReading.Of(Song)) is not { IsEmpty: false } wrong ? null
        : $"{NumberWords.List([.. wrong.Select(w => $"{w.Shape.Name} as {w.Shape.Shape} sounds {w.Against.Sounds}")])}, so what follows goes by the chords' "
            + $"names and leaves {(wrong.Length == 1 ? "that shape" : "those shapes")} out; mend the names or the shapes.";

    private string? Heard
    {
        get
        {
            var chords = Song.Bars.SelectMany(b => b.Chords).Select(c => c.Standing).ToArray();
            return !Standing.AreMostlyHeard(chords) ? null
                : $"{(chords.All(c => c.Kind == StandingKind.Heard) ? "All" : "Most")} chords of this song are as the program heard them and no person has "
                    + $"decided {(chords.All(c => c.Kind == StandingKind.Heard) ? "them" : "those")} yet. What follows is true of those chords, not surely of "
                    + "the record.";
        }
    }

    private static IEnumerable<Remark> All(Song song, IReadOnlyList<Song> others) =>
    [
        .. CapoRemarks.Of(song),
        .. NamedAsWritten(HandReading.Of(song)),
        .. HarpRemarks.Of(song),
        .. SungRhythmRemarks.Of(song),
        .. RetuningRemarks.Of(song),
        .. SongbookRemarks.Of(song, others),
    ];

    private static IEnumerable<Remark> NamedAsWritten(Song song) =>
        [.. HarmonyRemarks.Of(song), .. LayerRemarks.Of(song), .. MelodyRemarks.Of(song), .. TuneRemarks.Of(song), .. HandRemarks.Of(song)];
}
