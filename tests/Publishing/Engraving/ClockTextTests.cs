using Harkbook.Publishing.Engraving;
using Harkbook.Units;

namespace Harkbook.Publishing.Tests.Engraving;

/// <summary>Times as a clock shows them, whole seconds; common practice, and zero has no sign.</summary>
public class ClockTextTests
{
    [Theory]
    [InlineData(0, "0:00")]
    [InlineData(-0.4, "0:00")]
    [InlineData(-0.9, "0:00")]
    [InlineData(-1.41, "−0:01")]
    [InlineData(-61, "−1:01")]
    [InlineData(67.9, "1:07")]
    public void NothingIsMinusZero(double seconds, string text) => Assert.Equal(text, ClockText.Of(Seconds.FromSeconds(seconds)));
}
