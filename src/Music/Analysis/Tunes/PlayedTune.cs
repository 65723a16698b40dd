using System.Collections.Immutable;
using Harkbook.Music.Analysis.Layers;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Tunes;

/// <summary>A note of the tune at its place.</summary>
/// <param name="Start">Felt beats from the song's start.</param>
/// <param name="Chord">What sounds under its start; null where no chord is claimed.</param>
internal sealed record PlacedTuneNote(Bar Bar, Section Section, Key Key, Claim<TuneNote> Claim, Beats Start, Chord? Chord)
{
    public Beats End => Start + Claim.Length;

    /// <summary>The pitch that is meant: a bend's top, but for a quarter tone, which leaves its name.</summary>
    public Pitch Pitch => Claim.Value.Meant;

    /// <summary>Where it starts, up to its bar's end.</summary>
    public SongPlace Place => new(Bar.Number, Claim.Start, Claim.Start + Claim.Length > Bar.Meter.BarLength ? Bar.Meter.BarLength - Claim.Start : Claim.Length);

    public bool IsChordTone => Chord is { IsNone: false } chord && chord.PitchClasses.Contains(Pitch.Name.PitchClass);
}

/// <summary>The tune as one player has it.</summary>
internal sealed record PlayedTune(TunePlayer Player, ImmutableArray<PlacedTuneNote> Notes)
{
    /// <summary>"The voice", "The lead guitar".</summary>
    public string Who => $"The {Player.InWords()}";

    /// <summary>One for each player that the song has, in order of first appearance.</summary>
    public static IEnumerable<PlayedTune> In(Song song)
    {
        var starts = new LayerEvents(song).Bars().ToDictionary(b => b.Bar.Number, b => b.Start);
        return song.Sections.SelectMany(section => section.Bars.SelectMany(bar => bar.Tune.OrderBy(n => n.Start).Select(n =>
                (Player: song.TunePlayerIn(section), Note: new PlacedTuneNote(bar, section, song.KeyAt(bar.Number), n, starts[bar.Number] + n.Start,
                    LayerEvents.ChordAt(bar, n.Start))))))
            .GroupBy(n => n.Player, n => n.Note).Select(g => new PlayedTune(g.Key, [.. g]));
    }
}
