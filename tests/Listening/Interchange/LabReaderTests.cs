using Harkbook.Listening.Interchange;

namespace Harkbook.Listening.Tests.Interchange;

public sealed class LabReaderTests : IDisposable
{
    private readonly string path = Path.ChangeExtension(Path.GetTempFileName(), ".lab");

    // Labels by hand after the syntax of Harte, Sandler, Abdallah and Gómez (ISMIR 2005): a major seventh is maj7, a minor seventh min7, no chord N.
    [Fact]
    public void ChordsAreReadAsTheProgramWritesThemToo() =>
        Assert.Equal(["Eb:maj7", "F#:min7", "G:maj/3", "N", "D:min"], Read("0 1 Ebmaj7\n1 2 F#m7\n2 3 G/B\n3 4 N.C.\n4 5 D:min\n").Chords.Select(c => c.Label));

    [Fact]
    public void ALabelAmongChordsThatIsNoneIsNamedWithItsLine() =>
        Assert.Contains("line 4: 'Ebmej7' is no chord", Assert.Throws<AnnotationException>(() => Read("0 1 Ebmaj7\n\n1 2 F#m7\n2 3 Ebmej7\n3 4 G\n")).Message);

    [Theory]
    [InlineData("0 1 Intro\n1 2 A\n2 3 B\n3 4 Coda\n")]
    [InlineData("0 1 A\n1 2 B\n2 3 A\n3 4 Coda\n")]
    public void PartsOfAFormStaySections(string text) => Assert.Equal(4, Read(text).Sections.Length);

    public void Dispose() => File.Delete(path);

    private Annotation Read(string text)
    {
        File.WriteAllText(path, text);
        return LabReader.Read(path);
    }
}
