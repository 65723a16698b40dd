using Harkbook.Music.Analysis.Tunes;

namespace Harkbook.Music.Tests.Analysis.Tunes;

/// <summary>data/voices.tsv: parts from the top, each about an octave and a half, neighbours' overlap (common practice of part-writing).</summary>
public class VoicePartTests
{
    [Fact]
    public void PartsLieOneBelowTheOtherAndOverlap()
    {
        Assert.Equal(["soprano", "alto", "tenor", "bass"], VoicePart.All.Select(p => p.Name));
        Assert.All(VoicePart.All, p => Assert.InRange(p.Highest.Midi - p.Lowest.Midi, 17, 21));
        Assert.All(VoicePart.All.Zip(VoicePart.All.Skip(1)), p => Assert.True(p.Second.Lowest.Midi < p.First.Lowest.Midi
            && p.Second.Highest.Midi >= p.First.Lowest.Midi));
    }
}
