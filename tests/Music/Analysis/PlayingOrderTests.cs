using System.Collections.Immutable;
using CsCheck;
using Harkbook.Music.Analysis.Retuning;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Tests.Analysis;

public class PlayingOrderTests
{
    private static readonly ImmutableArray<Tuning> Guitar = [.. TuningCatalogue.All.Where(t => t.Instrument == TuningCatalogue.Guitar).Select(t => t.Tuning)];
    private static readonly GuitarSetting Start = new(Tuning.Standard, Capo.None);

    private static Gen<GuitarSetting> Settings =>
        Gen.Select(Gen.Int[0, Guitar.Length - 1], Gen.Int[0, 3], (i, capo) => new GuitarSetting(Guitar[i], Capo.At(capo)));

    /// <summary>Against an independent method: every order tried.</summary>
    [Fact]
    public void NoOrderCostsLess() =>
        Settings.Array[1, 6].Sample(songs =>
        {
            var cheapest = Orders([.. Enumerable.Range(0, songs.Length)]).Min(order => Cost(order.Select(i => songs[i])));
            var found = PlayingOrder.Of(songs, Start);
            return found.IsBest && Math.Abs(found.Cost - cheapest) < 1e-9 && Math.Abs(Cost(found.Order.Select(i => songs[i])) - cheapest) < 1e-9;
        }, iter: 60);

    [Fact]
    public void EverySongIsPlayedOnce() =>
        Settings.Array[0, 20].Sample(songs => PlayingOrder.Of(songs, Start).Order.Order().SequenceEqual(Enumerable.Range(0, songs.Length)), iter: 40);

    // Worked by hand: standard, then drop D (one string), then double drop D (one more) and D A D G A D (one more).
    [Fact]
    public void SongsGoStepByStep()
    {
        GuitarSetting[] songs = [.. new[] { "D A D G A D", "standard", "double drop D", "drop D",
            "standard" }.Select(n => new GuitarSetting(TuningCatalogue.Find(n)!.Tuning, Capo.None))];
        var order = PlayingOrder.Of(songs, Start);
        Assert.Equal([1, 4, 3, 2, 0], order.Order);
        Assert.Equal(3 * (1 + 2 * 0.2), order.Cost, 9);
    }

    [Fact]
    public void ManySettingsGetAGoodOrderAndSayThatItMayNotBeTheBest()
    {
        GuitarSetting[] songs = [.. Guitar.Take(15).Select(t => new GuitarSetting(t, Capo.None))];
        var order = PlayingOrder.Of(songs, Start);
        Assert.False(order.IsBest);
        Assert.True(order.Cost <= Cost(songs));
        Assert.True(PlayingOrder.Of(songs[..12], Start).IsBest);
    }

    [Fact]
    public void TuningsThatSoundAlikeAreOneSetting() =>
        Assert.Equal(0, PlayingOrder.Of([new(Tuning.Parse("Eb2 Ab2 Db3 Gb3 Bb3 Eb4"), Capo.None)],
            new(Tuning.Parse("D#2 G#2 C#3 F#3 A#3 D#4"), Capo.None)).Cost);

    private static double Cost(IEnumerable<GuitarSetting> songs)
    {
        var all = songs.Prepend(Start).ToArray();
        return all.Zip(all.Skip(1), RetuningCost.Usual.Between).Sum();
    }

    private static IEnumerable<ImmutableArray<int>> Orders(ImmutableArray<int> of) =>
        of.IsEmpty ? [[]] : of.SelectMany(first => Orders(of.Remove(first)).Select(rest => rest.Insert(0, first)));
}
