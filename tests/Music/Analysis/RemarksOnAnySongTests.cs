using CsCheck;
using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Hands;
using Harkbook.Music.Analysis.Layers;
using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Music.Analysis.Tunes;
using Harkbook.Music.Songs;
using Harkbook.Music.Tests.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Analysis;

public class RemarksOnAnySongTests
{
    // Whatever a song holds: whole sentences, facts behind each, places inside the song's bars.
    [Fact]
    public void RemarksAreSoundOnAnySong() => SongGen.Songs.Sample(song => Remarks(song).All(r => IsSound(r, song)), iter: 300);

    [Fact]
    public void AnEmptySongGetsNoRemark() => Assert.Empty(Remarks(AnySong.Of("section A\n")));

    private static IEnumerable<Remark> Remarks(Song song) =>
        LayerRemarks.Of(song).Concat(MelodyRemarks.Of(song)).Concat(TuneRemarks.Of(song)).Concat(HandRemarks.Of(song)).Concat(SungRhythmRemarks.Of(song));

    private static bool IsSound(Remark remark, Song song) =>
        !remark.Facts.IsDefaultOrEmpty
        && remark.Facts.All(f => f.Name.Length > 0 && f.Value.Length > 0 && f.Method.Length > 0)
        && char.IsUpper(remark.Sentence[0]) && remark.Sentence[^1] == '.' && !remark.Sentence.Contains("  ", StringComparison.Ordinal)
        && remark.Topic is RemarkTopic.Tune or RemarkTopic.Layers or RemarkTopic.Hand or RemarkTopic.Singing
        && remark.Places.All(p => song.Bars.Any(b => b.Number == p.Bar && p.Start >= Beats.Zero && p.Start < b.Meter.BarLength) && p.Length > Beats.Zero);
}
