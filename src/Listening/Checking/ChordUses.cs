using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking;

/// <summary>Weighs a song's chords where they stand.</summary>
internal sealed class ChordUses
{
    private readonly ILookup<int, Finding> byBar;

    public ChordUses(Song song, SongClock clock, GridChords grid)
    {
        var chords = new ChordWeigher(grid);
        byBar = song.Bars.SelectMany(bar => bar.Chords.Select(chord => Weigh(bar, chord))).ToLookup(f => f.Where!.Bar!.Value);

        Finding Weigh(Bar bar, Claim<ChordUse> claim)
        {
            var (start, end) = (clock.TimeOf(bar.Number, claim.Start), clock.TimeOf(bar.Number, claim.Start + claim.Length));
            return chords.Weigh(claim.Value.Chord, start, end, song.KeyAt(bar.Number), new(start, bar.Number, claim.Start.Value + 1)).Naming(bar, claim);
        }
    }

    /// <summary>All of them, in order.</summary>
    public IEnumerable<Finding> Chords => byBar.SelectMany(b => b);

    public IEnumerable<Finding> Weigh(Bar bar) => byBar[bar.Number];
}
