using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using NAudio.Midi;

namespace Harkbook.Bench.Outside;

/// <summary>A piece by somebody outside this project, as a MIDI file: its notes and tempo map say what a rendering of it holds.</summary>
public sealed record OutsidePiece(string Path)
{
    /// <summary>Where Debian's openttd-openmsx puts its MIDI files, by several composers, under the GPL.</summary>
    public const string DebianFolder = "/usr/share/games/openttd/baseset/openmsx";

    private const int Percussion = 10;

    public string Name => System.IO.Path.GetFileNameWithoutExtension(Path);

    /// <summary>
    /// The folder's pieces whose tempo map and meter can be trusted as the truth about its beats, by name: one time
    /// signature of 4/4, 3/4 or 6/8 is written, the tempo never changes, and nine of ten notes start at a sixteenth. A piece
    /// that was played in without a click has the sequencer's tempo, not the player's.
    /// </summary>
    public static ImmutableArray<OutsidePiece> Steady(string folder) =>
    [
        .. Directory.GetFiles(folder, "*.mid").Order(StringComparer.Ordinal).Select(f => new OutsidePiece(f)).Where(p => p.IsSteady()),
    ];

    /// <summary>
    /// The folder's pieces whose written beats can be trusted as the truth about beats, whatever their tempo map and meters: nine of ten notes
    /// start at a sixteenth or a triplet of the written quarter. A piece that was played in without a click doesn't lie on one.
    /// </summary>
    public static ImmutableArray<OutsidePiece> OnGrid(string folder) =>
    [
        .. Directory.GetFiles(folder, "*.mid").Order(StringComparer.Ordinal).Select(f => new OutsidePiece(f)).Where(p => p.IsOnGrid()),
    ];

    /// <summary>The piece with its guitars (General MIDI programs 25 to 32) alone, written to another file; null where fewer than a hundred notes are theirs.</summary>
    public OutsidePiece? Guitars(string into)
    {
        var file = Read();
        var programs = new int[17];
        var kept = new MidiEventCollection(1, file.DeltaTicksPerQuarterNote);
        var track = kept.AddTrack();
        var notes = 0;
        foreach (var e in file.Events.SelectMany(t => t).OrderBy(e => e.AbsoluteTime))
        {
            if (e is PatchChangeEvent patch)
                programs[patch.Channel] = patch.Patch;
            if (e is NoteEvent note)
            {
                if (note.Channel == Percussion || programs[note.Channel] is < 24 or > 31)
                    continue;
                notes += e is NoteOnEvent ? 1 : 0;
            }
            if (!MidiEvent.IsEndTrack(e))
                track.Add(e);
        }
        if (notes < 100)
            return null;
        track.Add(new MetaEvent(MetaEventType.EndTrack, 0, track[^1].AbsoluteTime));
        MidiFile.Export(into, kept);
        return new(into);
    }

    private MidiFile Read() => new(Path, strictChecking: false);

    private bool IsOnGrid()
    {
        var file = Read();
        var quarter = (double)file.DeltaTicksPerQuarterNote;
        var places = file.Events.SelectMany(track => track).OfType<NoteOnEvent>().Where(n => n.Velocity > 0).Select(n => n.AbsoluteTime / quarter).ToArray();
        return places.Length > 0 && new[] { 4, 6 }.Max(parts => places.Average(p => Math.Abs(p * parts - Math.Round(p * parts)) <= 1 / 12.0 ? 1.0 : 0)) >= 0.9;
    }

    private bool IsSteady()
    {
        var events = Read().Events.SelectMany(track => track).ToArray();
        return events.OfType<TimeSignatureEvent>().Select(t => (t.Numerator, Unit: 1 << t.Denominator)).Distinct().ToArray() is [(4, 4) or (3, 4) or (6, 8)]
            && events.OfType<TempoEvent>().Select(t => t.MicrosecondsPerQuarterNote).Distinct().Count() == 1
            && ShareAtSixteenths(MidiReader.Read(Path)) >= 0.9;
    }

    private static double ShareAtSixteenths(Annotation piece)
    {
        if (piece.Notes.IsEmpty || piece.Tempo is not { } tempo)
            return 0;
        var sixteenth = 60 / tempo / 4;
        return piece.Notes.Average(n => Math.Abs(n.Onset / sixteenth - Math.Round(n.Onset / sixteenth)) <= 1 / 12.0 ? 1 : 0);
    }
}
