using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using NAudio.Midi;

namespace Harkbook.Bench.Outside;

/// <summary>A piece by somebody outside this project, as a MIDI file: its notes and tempo map say what a rendering of it holds.</summary>
public sealed record OutsidePiece(string Path)
{
    /// <summary>Where Debian's openttd-openmsx puts its MIDI files, by several composers, under the GPL.</summary>
    public const string DebianFolder = "/usr/share/games/openttd/baseset/openmsx";

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

    private bool IsSteady()
    {
        var events = new MidiFile(Path, strictChecking: false).Events.SelectMany(track => track).ToArray();
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
