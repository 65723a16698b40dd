using System.Collections.Immutable;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Hands;

/// <summary>The changes of shape in a song.</summary>
public static class ShapeChanges
{
    /// <summary>Each different change once, in order of its first place.</summary>
    public static ImmutableArray<MadeChange> Of(Song song)
    {
        var (uses, hand) = (Uses(song), Hand.On(song.Tuning.Value));
        return
        [
            .. uses.Zip(uses.Skip(1), (a, b) => (Change: ShapeChange.Between(a.Use, b.Use, song.Capo.Value, hand), b.Place))
                .Where(c => c.Change is not null)
                .GroupBy(c => (c.Change!.From.Name, c.Change.To.Name))
                .Select(g => new MadeChange(g.First().Change!, [.. g.Select(c => c.Place)])),
        ];
    }

    /// <summary>The chords that have shapes, in order; one that goes on over a bar line once.</summary>
    internal static List<(ChordUse Use, SongPlace Place)> Uses(Song song)
    {
        var uses = new List<(ChordUse Use, SongPlace Place)>();
        foreach (var bar in song.Bars)
        {
            foreach (var claim in bar.Chords)
            {
                if (uses.Count > 0 && uses[^1].Use.Name == claim.Value.Name)
                    continue;
                uses.Add((claim.Value, new(bar.Number, claim.Start, claim.Length)));
            }
        }
        return uses;
    }
}
