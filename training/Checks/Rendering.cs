using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Demo;
using Harkbook.Listening;
using Harkbook.Music.Songs;
using Harkbook.Training.SecondInstrument;
using Harkbook.Units;

namespace Harkbook.Training.Checks;

/// <summary>Sounds made songs with our own strings, reeds and voices or with a General MIDI font, hears them, and keeps all of it in a folder.</summary>
internal sealed class Rendering(string folder, string font)
{
    private const double AnchorSlip = 0.012;

    private static readonly SampleRate Rate = SampleRate.FromHertz(22_050);

    /// <summary>Makes a song and hears it, where that wasn't done before.</summary>
    public async Task MakeAsync(int seed)
    {
        var stem = Path.Combine(folder, $"{seed}");
        if (!File.Exists(stem + ".hark"))
            Make(SongMaker.Make(seed), byFont: seed % 2 == 1, seed, stem);
        if (!KeptHearing.Exists(stem))
            await KeptHearing.MakeAsync(stem);
    }

    /// <summary>The songs as a person might write them down, their bars tied to where they are played, and what is heard of them.</summary>
    public IEnumerable<(string Piece, Song Song, Hearing Hearing)> Made() =>
        from file in Directory.GetFiles(folder, "*.hark").Order(StringComparer.Ordinal)
        let stem = file[..^5]
        where KeptHearing.Exists(stem)
        select (Path.GetFileName(stem), Parse(File.ReadAllText(file)), KeptHearing.Read(stem));

    private void Make(MadeSong made, bool byFont, int seed, string stem)
    {
        Directory.CreateDirectory(folder);
        if (byFont)
            made = made with { Text = made.Text.Replace(" x ", " . ", StringComparison.Ordinal) };
        var song = Parse(made.Text);
        var truth = byFont ? DemoRecording.TruthOf(song, made.Performance) : null;
        if (truth is null)
        {
            var take = DemoRecording.Render(song, made.Performance);
            WaveFile.Write(stem + ".wav", take.Sound);
            truth = take.Truth;
        }
        else
        {
            WaveFile.Write(stem + ".wav", ByFont(truth, seed));
        }
        File.WriteAllText(stem + ".hark", Anchored(made.Text, truth, new(seed)));
    }

    private Signal ByFont(DemoTruth truth, int seed)
    {
        var random = new Random(seed);
        var player = new FontPlayer(font, folder);
        var length = truth.Notes.Max(n => n.End.Value) + 2.5;
        var off = Enumerable.Range(0, 6).Select(_ => 12 * (random.NextDouble() - 0.5)).ToArray();
        var tracks = new List<Track>
        {
            new(new Signal(Rate, player.Guitar(truth.Notes.Where(n => n.Part == DemoPart.Guitar)
                .Select(n => new GuitarNote(n.StringIndex!.Value, n.Midi, n.Onset.Value, n.End.Value, 40 + random.Next(70))),
                24 + random.Next(4), length, off))),
        };
        foreach (var (part, program) in new[] { (DemoPart.Harp, 22), (DemoPart.Voice, 53 + random.Next(2)) })
        {
            var notes = truth.Notes.Where(n => n.Part == part)
                .Select(n => new LineNote(n.Midi, n.Onset.Value, n.End.Value, 70 + random.Next(40), 0, 0)).ToList();
            if (notes.Count > 0)
                tracks.Add(new(new Signal(Rate, player.Line(notes, program, length, 0)), -3, part == DemoPart.Harp ? 0.3 : 0));
        }
        var dry = Mixer.Sum(Rate, tracks);
        var room = new Room(Rate, Seconds.FromSeconds(0.2 + 1.4 * random.NextDouble())).Answer(dry);
        return Mixer.Master(Mixer.Sum(Rate, [new(dry), new(room, -24 + 14 * random.NextDouble())]), Loudness.FromLufs(-16));
    }

    private static Song Parse(string text) => SongText.Parse(text, "song.hark") is { Song: { } song } ? song
        : throw new InvalidOperationException(string.Join("\n", SongText.Parse(text, "song.hark").Diagnostics));

    private static string Anchored(string text, DemoTruth truth, Random random)
    {
        var starts = new Queue<double>(truth.Beats.Where(b => b.PositionInBar == 1).Select(b => b.Time.Value));
        var lines = text.Split('\n').ToList();
        for (var i = 0; i < lines.Count; i++)
        {
            if (!lines[i].StartsWith("section ", StringComparison.Ordinal))
                continue;
            var bars = lines[i + 1].Count(c => c == '|') - 1;
            lines.Insert(++i, "anchors " + string.Join("  ", Enumerable.Range(1, bars).Select(bar =>
                $"{bar} = {TimeText.Write(Seconds.FromSeconds(Math.Round(starts.Dequeue() + AnchorSlip * Normal(random), 3)))}")));
        }
        return string.Join('\n', lines);
    }

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
