using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Listening;
using Harkbook.Listening.Checking.Notes;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Interchange;
using Harkbook.Units;

namespace Harkbook.Training.Checks;

/// <summary>Recordings with JAMS files of the notes that they play, bands, drums and all; every fourth again in a room with noise.</summary>
internal static class AnnotatedPieces
{
    /// <summary>Notes that every so many are planted with errors; pieces that every so many are put in a room, too.</summary>
    private const int Every = 5, EveryRoom = 4;

    private const string Roomed = " in a room";

    private static readonly SampleRate rate = SampleRate.FromHertz(22_050);

    public static async Task HearAsync(string folder)
    {
        foreach (var (stem, index) in Stems(folder).Where(s => !s.EndsWith(Roomed, StringComparison.Ordinal)).Select((s, i) => (s, i)).ToArray())
        {
            if (index % EveryRoom == 0 && !File.Exists(stem + Roomed + ".jams"))
                await PutInRoomAsync(stem, new(index));
        }
        foreach (var stem in Stems(folder).Where(s => !KeptHearing.Exists(s)))
        {
            await KeptHearing.MakeAsync(stem);
            Console.WriteLine(stem);
        }
    }

    public static IEnumerable<(string Piece, Annotation Truth, Hearing Hearing)> Of(string folder) => Stems(folder).Where(KeptHearing.Exists)
        .Select(s => (Path.GetRelativePath(folder, s), JamsReader.Read(s + ".jams"), KeptHearing.Notes(s)));

    public static IEnumerable<Example> Examples(string piece, Annotation truth, Hearing hearing)
    {
        var offset = Cents.Between(Hertz.A440, hearing.ReferencePitch.Best).Value / 100;
        var starts = new HeardStarts(hearing.Evidence.Notes);
        List<WrittenNote> notes = [.. truth.Notes.Select(n => new WrittenNote((int)Math.Round(n.Midi - offset), n.Onset, n.End))];
        var claims = notes.Select(n => new NoteClaim(n.Midi, n.Onset, n.End)).ToArray();
        var (random, eighth) = (new Random(1), 30 / (truth.Tempo ?? 120));
        var wrong = claims.Where((_, i) => i % Every == 0).SelectMany(c => NoteExamples.Wrong(starts, notes, c, eighth, piece, random));
        (double, double)[] complete = [(notes.Min(n => n.Onset), notes.Max(n => n.End))];
        return [.. NoteExamples.Right(starts, notes, claims, piece), .. wrong,
            .. NoteExamples.Unwritten(starts, notes, hearing, complete, _ => false, piece)];
    }

    /// <summary>A room of 0.3 to 1.5 s, some of it quite wet, and hiss some 30 to 55 dB below the music.</summary>
    private static async Task PutInRoomAsync(string stem, Random random)
    {
        var dry = await RecordingReader.ReadAsync(await RecordingReader.InspectAsync(stem + ".wav"), rate, mono: true);
        var room = new Room(rate, Seconds.FromSeconds(0.3 + 1.2 * random.NextDouble())).Answer(dry);
        var hiss = new float[dry.Length];
        for (var i = 1; i < hiss.Length; i++)
            hiss[i] = 0.8f * hiss[i - 1] + 0.1f * (float)(random.NextDouble() - 0.5);
        var sum = Mixer.Sum(rate, [new(dry), new(room, -20 + 14 * random.NextDouble()), new(new Signal(rate, hiss), -35 + 25 * random.NextDouble())]);
        WaveFile.Write(stem + Roomed + ".wav", Mixer.Master(sum, Loudness.FromLufs(-16)).ToMono());
        File.Copy(stem + ".jams", stem + Roomed + ".jams");
    }

    private static IEnumerable<string> Stems(string folder) => Directory.Exists(folder)
        ? Directory.GetFiles(folder, "*.jams", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(f => f[..^5]) : [];
}
