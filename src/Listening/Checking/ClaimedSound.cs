using Harkbook.Listening.Interchange;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>A note that is claimed to sound: its MIDI number about the recording's own reference pitch, and when.</summary>
public readonly record struct ClaimedSound(int Midi, Seconds Start, Seconds End)
{
    /// <summary>What a song picks, strums and blows; what is sung has no pitch in a song file.</summary>
    public static IEnumerable<ClaimedSound> Of(Song song)
    {
        var (clock, neck, harp) = (new SongClock(song), new Fretboard(song.Tuning.Value, song.Capo.Value), song.Harp?.Value.ToHarmonica());
        return song.Bars.SelectMany(b => Picked(b, neck, clock).Concat(Strummed(b, neck, clock)).Concat(Blown(b, harp, clock)));
    }

    /// <summary>What a shape would sound while it is held, in bars that nothing is struck or picked in: a name claims its notes too.</summary>
    public static IEnumerable<ClaimedSound> OfHeldShapes(Song song)
    {
        var (clock, neck) = (new SongClock(song), new Fretboard(song.Tuning.Value, song.Capo.Value));
        return from bar in song.Bars
               where bar.Strums.IsEmpty && bar.Picked.IsEmpty
               from chord in bar.Chords
               where chord.Value.Shape?.Frets.Length == neck.Tuning.Count
               from s in Enumerable.Range(0, neck.Tuning.Count)
               where chord.Value.Shape!.Frets[s] is not null
               select At(neck.MidiAt(s, chord.Value.Shape!.Frets[s]!.Value), bar, chord.Start, chord.Length, clock);
    }

    /// <param name="a4">What A4 is in the recording.</param>
    public static IEnumerable<ClaimedSound> Of(Annotation claims, Hertz a4)
    {
        var offset = Cents.Between(Hertz.A440, a4).Value / 100;
        return claims.Notes.Select(n => new ClaimedSound((int)Math.Round(n.Midi - offset), Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End)));
    }

    private static IEnumerable<ClaimedSound> Picked(Bar bar, Fretboard neck, SongClock clock) =>
        from claim in bar.Picked
        let midi = claim.Value.MidiOn(neck)
        where midi is not null
        select At(midi.Value, bar, claim.Start, claim.Length, clock);

    private static IEnumerable<ClaimedSound> Strummed(Bar bar, Fretboard neck, SongClock clock) =>
        from stroke in bar.Strums
        where stroke.Value != Stroke.Muted
        let shape = bar.Chords.LastOrDefault(c => c.Start <= stroke.Start)?.Value.Shape
        where shape is not null && shape.Frets.Length == neck.Tuning.Count
        from s in Enumerable.Range(0, shape.Frets.Length)
        where shape.Frets[s] is not null
        select At(neck.MidiAt(s, shape.Frets[s]!.Value), bar, stroke.Start, stroke.Length, clock);

    private static IEnumerable<ClaimedSound> Blown(Bar bar, Harmonica? harp, SongClock clock) =>
        from claim in bar.Harp
        let pitch = harp?.FindPitch(claim.Value)
        where pitch is not null
        select At(pitch.Value.Midi, bar, claim.Start, claim.Length, clock);

    private static ClaimedSound At(int midi, Bar bar, Beats start, Beats length, SongClock clock) =>
        new(midi, clock.TimeOf(bar.Number, start), clock.TimeOf(bar.Number, start + length));
}
