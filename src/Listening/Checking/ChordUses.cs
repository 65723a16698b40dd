using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking;

/// <summary>
/// Weighs a song's chords where they stand, and their shapes. A shape is one for all its bars, so what would fit better is asked of all of
/// them together, and only of bars whose chord the recording supports: under a wrong chord no shape of it is right.
/// </summary>
internal sealed class ChordUses
{
    private readonly Song song;
    private readonly ShapeWeigher shapes;
    private readonly ILookup<int, Use> byBar;
    private readonly ILookup<string, Use> supported;
    private readonly Dictionary<string, Shape?> better = [];

    public ChordUses(Song song, SongClock clock, Hearing hearing, GridChords grid, CheckOptions options)
    {
        (this.song, shapes) = (song, new(options));
        var chords = new ChordWeigher(grid);
        var uses = song.Bars.SelectMany(bar => bar.Chords.Select(chord => Heard(bar, chord))).ToList();
        byBar = uses.ToLookup(u => u.Chord.Where!.Bar!.Value);
        supported = uses.Where(u => u.Chord.Verdict == Verdict.Supported).ToLookup(u => u.Claim.Name);

        Use Heard(Bar bar, Claim<ChordUse> claim)
        {
            var (start, end) = (clock.TimeOf(bar.Number, claim.Start), clock.TimeOf(bar.Number, claim.Start + claim.Length));
            var finding = chords.Weigh(claim.Value.Chord, start, end, song.KeyAt(bar.Number), new(start, bar.Number, claim.Start.Value + 1)).Naming(bar, claim);
            return new(claim.Value, PitchStrengths.Over(hearing.Evidence.Notes, start, end), CheckCalibration.Shipped.Judge(finding));
        }
    }

    /// <summary>The findings about chords alone, in order.</summary>
    public IEnumerable<Finding> Chords => byBar.SelectMany(b => b).Select(u => u.Chord);

    /// <summary>Each chord of a bar, and behind it its shape where it has one.</summary>
    public IEnumerable<Finding> Weigh(Bar bar) =>
        byBar[bar.Number].SelectMany(u => u.Claim.Shape is { } shape ? [u.Chord, Weigh(u, shape)] : new[] { u.Chord });

    private Finding Weigh(Use use, Shape shape)
    {
        var finding = shapes.Weigh(shape, song.Tuning.Value, song.Capo.Value, use.Sounding, use.Chord.Where!, $"{use.Claim.Name} as {shape}");
        return finding.Verdict != Verdict.Supported && use.Chord.Verdict == Verdict.Supported && Better(use.Claim, shape) is { } other
            ? finding.Fretting(song, use.Claim.Name, other)
            : finding;
    }

    private Shape? Better(ChordUse chord, Shape shape)
    {
        if (!better.TryGetValue(chord.Name, out var found))
            better[chord.Name] = found = shapes.Better(shape, song.Tuning.Value, song.Capo.Value, chord.Chord,
                [.. supported[chord.Name].Select(u => u.Sounding)]);
        return found;
    }

    private sealed record Use(ChordUse Claim, ImmutableDictionary<int, double> Sounding, Finding Chord);
}
