using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;

namespace Harkbook.Examples;

/// <summary>Weighs a song's claims against its recording and prints those that the recording doesn't support.</summary>
public static class CheckSong
{
    public static async Task RunAsync(string songPath, TextWriter output, CancellationToken ct = default)
    {
        var document = SongText.Parse(await File.ReadAllTextAsync(songPath, ct), songPath);
        foreach (var diagnostic in document.Diagnostics)
            output.WriteLine(diagnostic);
        if (document.Song is not { Recording: { } take } song)
            return;

        var recording = await RecordingReader.InspectAsync(Path.Combine(Path.GetDirectoryName(songPath)!, take.Path), ct);
        var hearing = await new Listener().ListenAsync(recording, progress: null, ct);
        var result = new Checker(hearing).Check(song);

        output.WriteLine($"{result.Count(ClaimKind.Chord, Verdict.Supported)} of {result.Count(ClaimKind.Chord)} chords are supported");
        foreach (var finding in result.Findings.Where(f => f.Verdict == Verdict.Contradicted))
            output.WriteLine($"bar {finding.Where?.Bar}: {finding.Claim}; {finding.Heard}");
    }
}
