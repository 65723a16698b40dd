using Harkbook.Publishing.Engraving;
using Harkbook.Units;

namespace Harkbook.Publishing.Tests.Engraving;

/// <summary>Times as a clock shows them, whole seconds; common practice: a counter starts at zero.</summary>
public class ClockTextTests
{
    [Theory]
    [InlineData(0, "0:00")]
    [InlineData(-0.4, "0:00")]
    [InlineData(-0.9, "0:00")]
    [InlineData(-1.41, "0:00")]
    [InlineData(67.9, "1:07")]
    public void NothingIsHeardBeforeTheRecording(double seconds, string text) => Assert.Equal(text, ClockText.Of(Seconds.FromSeconds(seconds)));
}
