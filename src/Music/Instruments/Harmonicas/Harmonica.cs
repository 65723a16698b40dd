using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Harmonicas;

/// <summary>
/// A harmonica in a key: which pitch every hole, breath, bend and over-bend gives, and back.
/// The higher reed of a hole bends down to a semitone above the lower one; the lower reed, over-bent, sounds a semitone
/// above the higher (common practice; these pitches on the Richter layout are the ones that players' charts give).
/// Pitches are spelled near the harmonica's key.
/// </summary>
public sealed class Harmonica
{
    private readonly ImmutableDictionary<HarpNote, Pitch> pitches;
    private readonly ILookup<int, HarpNote> notes;

    private Harmonica(HarpLayout layout, PitchName key, int octave)
    {
        (Layout, Key, Octave) = (layout, key, octave);
        AllNotes = [.. Enumerable.Range(1, layout.Holes).SelectMany(NotesOfHole)];
        var rise = LowestDo(key).Midi + 12 * octave - LowestDo(default).Midi;
        pitches = AllNotes.ToImmutableDictionary(n => n, n => Pitch.FromMidi(MidiInC(n) + rise, key.Fifths - 1));
        notes = AllNotes.ToLookup(n => pitches[n].Midi);
    }

    public HarpLayout Layout { get; }

    /// <summary>The key that is stamped on it.</summary>
    public PitchName Key { get; }

    public int Holes => Layout.Holes;

    /// <summary>0 for the usual one of its key, −1 for a low one, 1 for a high one.</summary>
    public int Octave { get; }

    /// <summary>Every note, hole by hole: blow, draw, bends from shallow to deep, over-bend; on a chromatic one blow, draw and both with the slide
    /// in.</summary>
    public ImmutableArray<HarpNote> AllNotes { get; }

    /// <summary>
    /// The usual ten-hole harmonica: keys G to B start below middle C, C to F# at or above it.
    /// A low one lies an octave down (<paramref name="octave"/> −1), a high one an octave up.
    /// </summary>
    public static Harmonica Richter(PitchName key, int octave = 0) => Of(HarpLayout.Richter, key, octave);

    /// <inheritdoc cref="Richter"/>
    public static Harmonica Of(HarpLayout layout, PitchName key, int octave = 0) =>
        octave is >= -2 and <= 2
            ? new(layout, key, octave)
            : throw new ArgumentOutOfRangeException(nameof(octave), octave, "Harmonicas are made at most two octaves lower or higher than usual.");

    /// <summary>The twelve usual keys, from G up to F#.</summary>
    public static ImmutableArray<PitchName> UsualKeys { get; } =
        [.. "G Ab A Bb B C Db D Eb E F F#".Split(' ').Select(PitchName.Parse)];

    public bool Has(HarpNote note) => pitches.ContainsKey(note);

    /// <summary>The sounding pitch; null when this harmonica has no such hole, bend or over-bend.</summary>
    public Pitch? FindPitch(HarpNote note) => pitches.TryGetValue(note, out var pitch) ? pitch : null;

    /// <summary>As <see cref="FindPitch"/>, but a note that this harmonica has not is a mistake.</summary>
    public Pitch PitchOf(HarpNote note) =>
        FindPitch(note) ?? throw new ArgumentException($"{note} can't be played on a {Layout.Name} harmonica in {Key}; ask FindPitch first.", nameof(note));

    /// <summary>Every way to play a pitch, the easiest first; none when the harmonica lacks it. Draw 2 and blow 3 are the same pitch.</summary>
    public ImmutableArray<HarpNote> NotesFor(int midi) => [.. notes[midi].OrderBy(n => n.Technique).ThenByDescending(n => n.Bend).ThenBy(n => n.Hole)];

    /// <inheritdoc cref="NotesFor(int)"/>
    public ImmutableArray<HarpNote> NotesFor(Pitch pitch) => NotesFor(pitch.Midi);

    /// <summary>Which position a tune in a key is played in: 1 in the harmonica's own key, and one more for each fifth up, to 12.</summary>
    public int PositionFor(PitchName tonic) => Floor.Mod(tonic.Fifths - Key.Fifths, 12) + 1;

    /// <summary>The key that a position (1–12) plays in.</summary>
    public PitchName KeyInPosition(int position) => HarpPosition.Tonic(Key, position);

    /// <summary>As players order one: "low F", "G", "high G, country".</summary>
    public string Name =>
        string.Concat(Enumerable.Repeat(Octave < 0 ? "low " : "high ", Math.Abs(Octave))) + Key + (Layout.Name == HarpLayout.Usual ? "" : $", {Layout.Name}");

    public override string ToString() => $"{Layout.Name} harmonica in {Key}";

    private IEnumerable<HarpNote> NotesOfHole(int hole)
    {
        yield return new(hole, Breath.Blow);
        yield return new(hole, Breath.Draw);
        foreach (var note in Layout.HasSlide ? SlideNotes(hole) : BentNotes(hole))
            yield return note;
    }

    private static IEnumerable<HarpNote> SlideNotes(int hole) =>
        [new(hole, Breath.Blow, Slide: true), new(hole, Breath.Draw, Slide: true)];

    private IEnumerable<HarpNote> BentNotes(int hole)
    {
        var (blow, draw) = (Layout.Blow[hole - 1].Midi, Layout.Draw[hole - 1].Midi);
        var (higher, lower) = draw > blow ? (Breath.Draw, Breath.Blow) : (Breath.Blow, Breath.Draw);
        for (var bend = 1; bend < Math.Abs(draw - blow); bend++)
            yield return new(hole, higher, -bend);
        if (draw != blow)
            yield return new(hole, lower, 1);
    }

    private int MidiInC(HarpNote note)
    {
        var hole = note.Hole - 1;
        if (note.Slide)
            return (note.Breath == Breath.Blow ? Layout.BlowSlide : Layout.DrawSlide)[hole].Midi;
        var (blow, draw) = (Layout.Blow[hole].Midi, Layout.Draw[hole].Midi);
        return note.Bend > 0 ? Math.Max(blow, draw) + 1 : (note.Breath == Breath.Blow ? blow : draw) + note.Bend;
    }

    private static Pitch LowestDo(PitchName key) => Pitch.FromMidi((key.PitchClass >= 7 ? 48 : 60) + key.PitchClass, key);
}
