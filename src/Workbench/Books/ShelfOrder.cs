using System.Collections.Immutable;
using Harkbook.Music.Analysis.Retuning;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Workbench.Books;

/// <summary>The orders that songs stand in on the shelf.</summary>
public static class ShelfOrder
{
    /// <param name="order">"title", "album", "retuning" or "left".</param>
    public static ImmutableArray<ShelfSong> Of(ImmutableArray<ShelfSong> songs, string order) => order switch
    {
        "album" => [.. songs.OrderBy(s => s.Song?.Album ?? "\uFFFF", StringComparer.CurrentCultureIgnoreCase).ThenBy(s => s.Title,
            StringComparer.CurrentCultureIgnoreCase)],
        "retuning" => Retuning(songs),
        "left" => [.. songs.OrderByDescending(s => s.OnlyHeard)],
        _ => [.. songs.OrderBy(s => s.Title, StringComparer.CurrentCultureIgnoreCase)],
    };

    /// <summary>From standard tuning; songs for another number of strings come last.</summary>
    private static ImmutableArray<ShelfSong> Retuning(ImmutableArray<ShelfSong> songs)
    {
        var playable = songs.Where(s => s.Song?.Tuning.Value.Count == Tuning.Standard.Count).ToArray();
        if (playable.Length == 0)
            return songs;
        var order = PlayingOrder.Of([.. playable.Select(s => GuitarSetting.Of(s.Song!))], new(Tuning.Standard, Capo.None));
        return [.. order.Order.Select(i => playable[i]), .. songs.Except(playable)];
    }
}
