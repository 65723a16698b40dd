using Harkbook.Demo;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.App.Tests.Demo;

/// <summary>The songbook that comes with the program.</summary>
public class SongbookTests
{
    [Fact]
    public void EveryShapeSoundsItsChordWithItsBass()
    {
        foreach (var (name, song, _) in DemoSongs.All())
        {
            var neck = new Fretboard(song.Tuning.Value, song.Capo.Value);
            foreach (var use in song.Bars.SelectMany(b => b.Chords).Select(c => c.Value).DistinctBy(u => u.Name))
            {
                var midis = use.Shape!.Frets.Select((fret, s) => fret is { } f ? neck.MidiAt(s, f) : (int?)null).OfType<int>().ToArray();
                Assert.True(midis.Select(m => m % 12).Distinct().Order().SequenceEqual(use.Chord.PitchClasses), $"{name}: {use.Name} sounds other notes");
                Assert.True(midis.Min() % 12 == use.Chord.Bass.PitchClass, $"{name}: {use.Name} has another bass");
            }
        }
    }

    [Fact]
    public void EveryHarmonicaNoteCanBePlayed()
    {
        foreach (var (_, song, _) in DemoSongs.All().Where(s => s.Song.Harp is not null))
        {
            var harmonica = Harmonica.Richter(song.Harp!.Value.Key);
            Assert.All(song.Bars.SelectMany(b => b.Harp), claim => Assert.True(harmonica.Has(claim.Value)));
        }
    }

    [Fact]
    public void TheAnchorsAreWhereTheRecordingHasTheirBars()
    {
        foreach (var (name, song, performance) in DemoSongs.All())
        {
            var truth = DemoRecording.TruthOf(song, performance);
            var clock = new SongClock(song);
            var downbeats = truth.Beats.Where(b => b.PositionInBar == 1).ToArray();
            for (var bar = 1; bar <= downbeats.Length; bar++)
                Assert.True(Math.Abs((clock.TimeOf(bar) - downbeats[bar - 1].Time).Value) < 0.05, $"{name}, bar {bar}");
            foreach (var section in song.Sections)
                Assert.All(section.Anchors, a => Assert.Equal(downbeats[section.Bars[0].Number + a.Bar - 2].Time.Value, a.At.Value, 0.001));
        }
    }

    [Fact]
    public void TheTruthRunsWithoutGapsAndBreathesWithinBounds()
    {
        foreach (var (_, song, performance) in DemoSongs.All())
        {
            var truth = DemoRecording.TruthOf(song, performance);
            Assert.Equal(song.Bars.Sum(b => b.Meter.BeatsPerBar), truth.Beats.Length);
            Assert.All(truth.Chords.Zip(truth.Chords.Skip(1)), pair => Assert.Equal(pair.First.End, pair.Second.Start));
            var lengths = truth.Beats.Zip(truth.Beats.Skip(1), (a, b) => (b.Time - a.Time).Value).ToArray();
            var usual = 60 / song.Tempo.Value;
            Assert.All(lengths.SkipLast(8), l => Assert.InRange(l, 0.93 * usual, 1.07 * usual));
            Assert.InRange(lengths.Average(), 0.98 * usual, 1.03 * usual);
            Assert.InRange(truth.Sections[^1].End.Value, 50, 80);
        }
    }

    [Fact]
    public void EverySyllableStartsWithANoteOfTheTune()
    {
        foreach (var (_, song, performance) in DemoSongs.All())
        {
            Assert.All(song.Bars, bar => Assert.Equal(bar.Sung.Select(s => (s.Start, s.Length)), bar.Tune.Select(n => (n.Start, n.Length))));
            Assert.Equal(song.Bars.Sum(b => b.Tune.Length), DemoRecording.TruthOf(song, performance).Notes.Count(n => n.Part == DemoPart.Voice));
        }
    }
}
