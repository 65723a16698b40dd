using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Explaining;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis;

/// <summary>
/// Songs of our own with features planted in them by hand: each is found where it was put, and nothing else is said to be
/// unusual. What was planted stands in each song's first line; the harmony is common practice.
/// </summary>
public class PlantedSongsTests
{
    private static readonly RemarkTopic[] Explained = [RemarkTopic.Harmony, RemarkTopic.Layers];

    [Theory]
    [InlineData("plain-gate", "KeyOfTheSong")]
    [InlineData("herons-ladder", "KeyOfTheSong BorrowedChord BorrowedChord BorrowedChord TwoColours")]
    [InlineData("ash-and-lantern", "KeyOfTheSong AppliedChord AppliedChord")]
    [InlineData("weir-song", "KeyOfTheSong ModalSong LayeredChord MelodyTones MelodyLeans")]
    public void EverythingPlantedIsFoundAndNothingElse(string song, string kinds) =>
        Assert.Equal(kinds.Split(' ').Order(), Explain(song).Remarks.Where(r => Explained.Contains(r.Topic)).Select(r => r.Kind.ToString()).Order());

    [Theory]
    [InlineData("herons-ladder", RemarkKind.BorrowedChord, "C", "E minor", 9)]
    [InlineData("herons-ladder", RemarkKind.BorrowedChord, "D", "E minor", 10)]
    [InlineData("herons-ladder", RemarkKind.BorrowedChord, "A minor", "E minor", 14)]
    [InlineData("ash-and-lantern", RemarkKind.AppliedChord, "E seven", "A minor", 2)]
    [InlineData("ash-and-lantern", RemarkKind.AppliedChord, "A seven", "D", 6)]
    [InlineData("weir-song", RemarkKind.LayeredChord, "C, E and G", "D minor eleven", 3)]
    [InlineData("ash-and-lantern", RemarkKind.VoiceAnticipates, "eighth before the bar", "in seven places", 1)]
    public void ItIsFoundWhereItWasPut(string song, RemarkKind kind, string what, string words, int bar) =>
        Assert.Contains(Explain(song).Remarks, r =>
            r.Kind == kind && r.Places.Any(p => p.Bar == bar)
            && r.Sentence.Contains(what, StringComparison.OrdinalIgnoreCase) && r.Sentence.Contains(words, StringComparison.OrdinalIgnoreCase));

    [Theory]
    [InlineData("plain-gate")]
    [InlineData("herons-ladder")]
    public void AVoiceOnTheBeatIsNotCalledSyncopated(string song) =>
        Assert.DoesNotContain(Explain(song).Remarks, r => r.Kind is RemarkKind.SungSyncopation or RemarkKind.VoiceAnticipates or RemarkKind.VoiceEntersLate);

    [Fact]
    public void AnOffBeatVoiceNeverMeetsTheGuitar() =>
        Assert.Contains(Explain("ash-and-lantern").Remarks, r => r.Kind == RemarkKind.VoiceAgainstGuitar
            && r.Sentence.Contains("never", StringComparison.Ordinal));

    [Theory]
    [InlineData("plain-gate")]
    [InlineData("herons-ladder")]
    [InlineData("ash-and-lantern")]
    [InlineData("weir-song")]
    public void EverySentenceRestsOnAFact(string song) =>
        Assert.All(Explain(song).Remarks, r => Assert.NotEmpty(r.Facts));

    private static Explanation Explain(string name)
    {
        var file = Path.Combine(AppContext.BaseDirectory, "Analysis", "Planted", name + ".hark");
        return Explanation.Of(SongText.Parse(File.ReadAllText(file), file).Song!);
    }
}
