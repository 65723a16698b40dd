using System.Collections.Immutable;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Bench.Outside;
using Harkbook.Listening.Interchange;

namespace Harkbook.Listening.Tests.Outside;

/// <summary>What Harkbook heard in the first minute of a piece, and what the piece's MIDI file says of it.</summary>
public sealed record HeardPiece(string Name, Hearing Hearing, Annotation Truth);

/// <summary>
/// Pieces by outside composers (OpenMSX, GPL 2, from Debian's openttd-openmsx), rendered and listened to once for all tests.
/// Chosen by rule, before anything was scored: the first five by name of the steady ones (see <see cref="OutsidePiece"/>)
/// whose first minute tells a key plainly, or chords for a third of its time.
/// </summary>
public sealed class OutsideMusic : IAsyncLifetime
{
    private const double Minute = 60;
    private const int Count = 5;
    private const double LeastChordTime = 1 / 3.0;

    private ImmutableArray<HeardPiece> pieces = [];

    public ImmutableArray<HeardPiece> Pieces
    {
        get
        {
            Assert.SkipWhen(FluidSynth.Missing() is { Length: > 0 },
                $"Not installed here, and this test renders outside music with it: {string.Join(' ', FluidSynth.Missing())}.");
            return pieces;
        }
    }

    public async ValueTask InitializeAsync()
    {
        if (FluidSynth.Missing() is { Length: > 0 })
            return;
        var folder = Directory.CreateTempSubdirectory("harkbook-outside-");
        try
        {
            var chosen = OutsidePiece.Steady(OutsidePiece.DebianFolder)
                .Select(piece => (piece, Truth: MidiTruth.Of(piece.Path, Minute)))
                .Where(p => TellsEnough(p.Truth))
                .Take(Count);
            pieces = [.. await Task.WhenAll(chosen.Select(p => Task.Run(() => HearAsync(p.piece, p.Truth, folder.FullName))))];
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private static bool TellsEnough(Annotation truth) =>
        !truth.Keys.IsEmpty || truth.Chords.Sum(c => c.End - c.Start) >= LeastChordTime * truth.Duration;

    private static async Task<HeardPiece> HearAsync(OutsidePiece piece, Annotation truth, string folder)
    {
        var wave = Path.Combine(folder, piece.Name + ".wav");
        FluidSynth.Render(piece.Path, wave, Minute);
        var recording = await RecordingReader.InspectAsync(wave, TestContext.Current.CancellationToken);
        return new(piece.Name, await new Listener().ListenAsync(recording, null, TestContext.Current.CancellationToken), truth);
    }
}
