using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.SecondInstruments;

/// <summary>A song's harmonica with the notes that it plays.</summary>
/// <param name="Notes">In playing order; holes that the harmonica hasn't got are left out.</param>
public sealed record HarpPlayed(Song Song, Harmonica Harp, ImmutableArray<(int Bar, Claim<HarpNote> Claim, Pitch Pitch)> Notes)
{
    /// <summary>Null where the song has no harmonica or it plays nothing that it can.</summary>
    /// <param name="bars">Which bars to look at; all of the song's when null.</param>
    public static HarpPlayed? In(Song song, Func<Bar, bool>? bars = null)
    {
        if (song.Harp?.Value.ToHarmonica() is not { } harp)
            return null;
        var notes = song.Bars.Where(bars ?? (_ => true)).SelectMany(b => b.Harp.OrderBy(n => n.Start).Select(n => (b.Number, n, harp.FindPitch(n.Value))))
            .Where(n => n.Item3 is not null).Select(n => (n.Number, n.n, n.Item3!.Value)).ToImmutableArray();
        return notes.IsEmpty ? null : new(song, harp, notes);
    }

    /// <summary>What sounds at once, in order.</summary>
    public IEnumerable<ImmutableArray<Pitch>> Tune =>
        Notes.GroupBy(n => (n.Bar, n.Claim.Start)).Select(g => g.Select(n => n.Pitch).ToImmutableArray());

    internal static SongPlace Place((int Bar, Claim<HarpNote> Claim, Pitch Pitch) note) => new(note.Bar, note.Claim.Start, note.Claim.Length);
}
