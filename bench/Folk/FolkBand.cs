using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using NAudio.Midi;

namespace Harkbook.Bench.Folk;

/// <summary>
/// Plays a tune on a harmonica (General MIDI program 23) over a guitar that strums its chord symbols: bass and chord, or down and up strokes,
/// in open shapes, with a person's timing. The same seed plays the same.
/// </summary>
internal sealed class FolkBand
{
    private const int Ticks = 960;
    private static readonly int[] Strings = [40, 45, 50, 55, 59, 64];

    private readonly AbcTune tune;
    private readonly Random chance;
    private readonly double wholeNote;
    private readonly List<(ChordSymbol Chord, double Start, double End)> chords = [];
    private readonly List<(int Channel, double Start, double End, int Pitch, int Velocity)> played = [];

    public FolkBand(AbcTune tune, int seed)
    {
        (this.tune, chance) = (tune, new Random(seed));
        var compound = tune.Bars[0].IsCompound;
        var beatsAMinute = (compound ? 96 : tune.Bars[0].Count == 3 ? 104 : tune.Bars[0].Count == 2 && tune.Bars[0].Unit == 4 ? 100 : 136) + chance.NextDouble() * 40 - 10;
        wholeNote = 60 / beatsAMinute / tune.Bars[0].Beat;
        var marks = tune.Chords.Select(c => (c.Start, Chord: ChordSymbol.Read(c.Text))).ToList();
        for (var i = 0; i < marks.Count; i++)
        {
            var end = i + 1 < marks.Count ? marks[i + 1].Start : tune.End;
            if (marks[i].Chord is { } chord && end > marks[i].Start)
                chords.Add((chord, marks[i].Start, end));
        }
        Melody();
        Guitar();
    }

    /// <summary>A second of quiet at the start.</summary>
    private double At(double place) => 1 + place * wholeNote;

    private void Melody()
    {
        foreach (var note in tune.Notes)
        {
            foreach (var pitch in note.Pitches)
                Play(0, note.Start, note.Length * 0.92, pitch, 88);
        }
    }

    private void Guitar()
    {
        var (bassAndChord, ups) = (chance.NextDouble() < 0.6, chance.NextDouble() < 0.5);
        foreach (var bar in tune.Bars)
        {
            var beats = (int)Math.Round(bar.Length / bar.Beat);
            for (var beat = 0; beat < beats; beat++)
            {
                var place = bar.Start + beat * bar.Beat;
                if (bassAndChord && (beats == 3 ? beat == 0 : beat % 2 == 0 && !bar.IsCompound))
                    Stroke(place, bar.Beat, shape => shape[..1], 92);
                else if (bassAndChord && bar.IsCompound)
                    Stroke(place, bar.Beat * 2 / 3, shape => shape[..1], 92);
                else
                    Stroke(place, bar.Beat, shape => bassAndChord ? shape[^Math.Min(4, shape.Length)..] : shape, beat == 0 ? 92 : 78);
                if (bar.IsCompound)
                    Stroke(place + bar.Beat * 2 / 3, bar.Beat / 3, shape => [.. shape[^3..].Reverse()], 66);
                else if (ups && (!bassAndChord || beat % 2 == 1))
                    Stroke(place + bar.Beat / 2, bar.Beat / 2, shape => [.. shape[^3..].Reverse()], 66);
            }
        }
    }

    private void Stroke(double place, double length, Func<int[], int[]> strings, int velocity)
    {
        var now = chords.FirstOrDefault(c => c.Start <= place + 1e-6 && c.End > place + 1e-6);
        if (now.Chord is null)
            return;
        var (late, gap) = (0.0, 0.008 + 0.014 * chance.NextDouble());
        foreach (var pitch in strings(Shape(now.Chord)))
        {
            Play(1, place, length, pitch, velocity, late);
            late += gap;
        }
    }

    /// <summary>The bass on the lowest string that has it below the fifth fret, then each string at the lowest fret that is in the chord.</summary>
    private static int[] Shape(ChordSymbol chord)
    {
        var classes = chord.Notes;
        var low = Array.FindIndex(Strings, s => (chord.Bass.PitchClass - s % 12 + 12) % 12 < 5);
        return [Strings[low] + (chord.Bass.PitchClass - Strings[low] % 12 + 12) % 12,
            .. Strings[(low + 1)..].Select(s => s + Enumerable.Range(0, 12).First(f => classes.Contains((s + f) % 12)))];
    }

    private void Play(int channel, double place, double length, int pitch, int velocity, double late = 0)
    {
        var start = At(place) + late + 0.008 * Normal();
        played.Add((channel, start, Math.Max(start + 0.05, At(place + length)), pitch, Math.Clamp((int)(velocity + 6 * Normal()), 20, 120)));
    }

    private double Normal() => Math.Sqrt(-2 * Math.Log(1 - chance.NextDouble())) * Math.Cos(2 * Math.PI * chance.NextDouble());

    public void WriteMidi(string path)
    {
        var file = new MidiEventCollection(0, Ticks);
        var track = file.AddTrack();
        track.Add(new TempoEvent(500_000, 0));
        track.Add(new PatchChangeEvent(0, 1, 22));
        track.Add(new PatchChangeEvent(0, 2, 25));
        foreach (var (channel, start, end, pitch, velocity) in played)
        {
            var (from, to) = ((long)(start * 2 * Ticks), (long)(end * 2 * Ticks));
            track.Add(new NoteOnEvent(from, channel + 1, pitch, velocity, (int)(to - from)));
            track.Add(new NoteEvent(to, channel + 1, MidiCommandCode.NoteOff, pitch, 0));
        }
        track.Add(new MetaEvent(MetaEventType.EndTrack, 0, (long)((At(tune.End) + 1) * 2 * Ticks)));
        file.PrepareForExport();
        MidiFile.Export(path, file);
    }

    public Annotation Truth(double seconds)
    {
        var end = Math.Min(seconds, At(tune.End) + 1);
        AnnotatedSpan Span(double from, double to, string label) => new(At(from), Math.Min(end, At(to)), label);
        return new()
        {
            Duration = end,
            Beats = [.. Beats().Where(b => b.Time < end)],
            Tempo = 60 / (wholeNote * tune.Bars[0].Beat),
            Chords = [.. chords.Select(c => Span(c.Start, c.End, c.Chord.Harte)).Where(s => s.End > s.Start)],
            Keys = [.. tune.Keys.Select((k, i) => Span(k.Start, i + 1 < tune.Keys.Length ? tune.Keys[i + 1].Start : tune.End, k.Text)).Where(s => s.End > s.Start)],
            Notes = [.. played.Where(p => p.Start < end).Select(p => new ScoredNote(p.Start, Math.Min(end, p.End), p.Pitch))],
            ReferenceHertz = 440,
        };
    }

    private IEnumerable<AnnotatedBeat> Beats()
    {
        for (var i = 0; i < tune.Bars.Length; i++)
        {
            var bar = tune.Bars[i];
            var length = (i + 1 < tune.Bars.Length ? tune.Bars[i + 1].Start : tune.End) - bar.Start;
            for (var beat = 0; beat * bar.Beat < length - 1e-6; beat++)
                yield return new(At(bar.Start + beat * bar.Beat), beat + 1);
        }
    }
}
