using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Hands;

/// <summary>A string that keeps one note while the chords change.</summary>
/// <param name="StringIndex">0 for the low side.</param>
/// <param name="Chords">Different chords that it is kept through, in order of appearance.</param>
/// <param name="Bars">First and last bar of each stretch.</param>
/// <param name="IsThroughout">Whether every chord of the song that has a shape is among them.</param>
public sealed record HeldString(int StringIndex, Pitch Pitch, ImmutableArray<Chord> Chords, ImmutableArray<(int First, int Last)> Bars, bool IsThroughout)
{
    private const int FewestChords = 4;
    private const int FewestThroughout = 3;

    /// <summary>For each string and note the stretches over at least four different chords, or over a song's every chord if it has three.</summary>
    public static ImmutableArray<HeldString> In(Song song)
    {
        var uses = ShapeChanges.Uses(song).Where(u => u.Use.Shape is not null && !u.Use.Chord.IsNone).ToList();
        var all = uses.Select(u => u.Use.Name).Distinct().Count();
        return [.. Enumerable.Range(0, song.Tuning.Value.Count).SelectMany(s => OnString(s, uses, song, all))];
    }

    private static IEnumerable<HeldString> OnString(int s, List<(ChordUse Use, SongPlace Place)> uses, Song song, int all)
    {
        var runs = Runs(s, uses).Where(r => r.Names.Count >= Math.Max(FewestThroughout, Math.Min(FewestChords, all))).ToArray();
        foreach (var group in runs.GroupBy(r => r.Fret))
        {
            var board = new Fretboard(song.Tuning.Value, song.Capo.Value);
            var widest = group.MaxBy(r => r.Names.Count)!;
            ImmutableArray<Chord> chords = [.. uses.Skip(widest.First).Take(widest.Last - widest.First + 1).Select(u => u.Use.Chord).Distinct()];
            yield return new(s, board.PitchAt(s, group.Key, song.Key.Value.Centre), chords,
                [.. group.Select(r => (uses[r.First].Place.Bar, LastBar(r.Last, uses, song)))], widest.Names.Count == all && group.Count() == 1
                    && widest.First == 0 && widest.Last == uses.Count - 1);
        }
    }

    private sealed record Run(int Fret, int First, int Last, HashSet<string> Names);

    private static IEnumerable<Run> Runs(int s, List<(ChordUse Use, SongPlace Place)> uses)
    {
        Run? run = null;
        for (var i = 0; i < uses.Count; i++)
        {
            var fret = s < uses[i].Use.Shape!.Frets.Length ? uses[i].Use.Shape!.Frets[s] : null;
            if (run is not null && run.Fret != fret)
            {
                yield return run;
                run = null;
            }
            if (fret is { } f)
                run = run is null ? new(f, i, i, [uses[i].Use.Name]) : run with { Last = i, Names = [.. run.Names, uses[i].Use.Name] };
        }
        if (run is not null)
            yield return run;
    }

    private static int LastBar(int use, List<(ChordUse Use, SongPlace Place)> uses, Song song)
    {
        var next = use + 1 < uses.Count ? uses[use + 1].Place : (SongPlace?)null;
        return next is not { } n ? song.Bars.Count() : n.Start == Units.Beats.Zero ? n.Bar - 1 : n.Bar;
    }
}
