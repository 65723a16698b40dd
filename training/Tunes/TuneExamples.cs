using System.IO.Compression;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Listening.Checking.Lines;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading;
using Harkbook.Music.Songs;
using Harkbook.Training.Checks;

namespace Harkbook.Training.Tunes;

/// <summary>Notes of songs with a known tune as claims, each right once, and planted wrong: a step or a third off, an eighth early or late.</summary>
internal static class TuneExamples
{
    public static IEnumerable<Example> Of(string folder)
    {
        foreach (var file in Directory.GetFiles(folder, "*.hark").Order(StringComparer.Ordinal))
        {
            if (SongText.Parse(File.ReadAllText(file), file).Song is not { } song || song.Bars.All(b => b.Tune.IsEmpty))
                continue;
            var recording = RecordingReader.InspectAsync(Path.ChangeExtension(file, ".wav")).Result;
            using var archive = ZipFile.OpenRead(Path.ChangeExtension(file, ".heard"));
            var hearing = Reader.Read(recording, EvidenceFile.Read(archive), Claims.None);
            foreach (var example in OfSong(song, hearing, Path.GetFileNameWithoutExtension(file)))
                yield return example;
        }
    }

    private static IEnumerable<Example> OfSong(Song song, Hearing hearing, string piece)
    {
        var (clock, random) = (new SongClock(song), new Random(piece.Length));
        foreach (var section in song.Sections)
        {
            if (TuneLine.Of(song, section, hearing) is not { } line)
                continue;
            var kind = Array.IndexOf(LineNetwork.Kinds, line.Kind.Best);
            var features = new TuneFeatures(new(hearing.Evidence.Notes), new(hearing.Evidence.Lines, hearing.Evidence.Notes.Hop.Value, kind), line.Notes);
            foreach (var (bar, note) in section.Bars.SelectMany(b => b.Tune.Select(n => (b, n))))
            {
                var at = clock.TimeOf(bar.Number, note.Start).Value;
                var claim = new TuneClaim(note.Value.Pitch.Midi, at, clock.TimeOf(bar.Number, note.Start + note.Length).Value);
                yield return new("TuneNote", piece, "", features.Of(claim));
                foreach (var by in new[] { random.Next(1, 3), -random.Next(1, 3), random.Next(3, 5) })
                    yield return new("TuneNote", piece, Math.Abs(by) < 3 ? "a step off" : "a third off", features.Of(claim with { Midi = claim.Midi + by }));
                var same = section.Bars.SelectMany(b => b.Tune.Where(n => n.Value.Pitch == note.Value.Pitch).Select(n => clock.TimeOf(b.Number, n.Start).Value));
                foreach (var moved in new[] { at - Eighths.In(bar, clock), at + Eighths.In(bar, clock) })
                {
                    if (!same.Any(t => Math.Abs(t - moved) < 0.1))
                        yield return new("TuneNote", piece, "an eighth off", features.Of(claim with { Onset = moved, End = Math.Max(claim.End, moved + 0.1) }));
                }
            }
        }
    }
}
