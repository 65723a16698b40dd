using Harkbook.Listening.Interchange;

namespace Harkbook.Listening.Tests.Interchange;

public class MidiReaderTests
{
    // The worked example of a format 0 file in the Standard MIDI File 1.0 specification: four notes, 96 ticks a quarter, 120 a minute.
    private const string Published =
        "4D54686400000006000000010060" + "4D54726B0000003B" + "00FF580404021808" + "00FF510307A120" + "00C005" + "00C12E" + "00C246" +
        "00923060" + "003C60" + "60914340" + "60904C20" + "81408230" + "40" + "003C40" + "00814340" + "00804C40" + "00FF2F00";

    [Fact]
    public void ThePublishedExampleGivesItsNotesAndBeats()
    {
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(path, Convert.FromHexString(Published));
            var read = MidiReader.Read(path);
            Assert.Equal([48.0, 60, 67, 76], read.Notes.Select(n => n.Midi));
            Assert.Equal([0, 0, 0.5, 1], read.Notes.Select(n => Math.Round(n.Onset, 6)));
            Assert.All(read.Notes, n => Assert.Equal(2, n.End, 1e-6));
            Assert.Equal([0, 0.5, 1, 1.5], read.Beats.Select(b => Math.Round(b.Time, 6)));
            Assert.Equal(120, read.Tempo);
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void WhatIsNoMidiFileIsSaidToBeNone()
    {
        var path = Path.GetTempFileName();
        File.WriteAllText(path, "not music");
        Assert.Contains(path, Assert.Throws<AnnotationException>(() => MidiReader.Read(path)).Message);
        File.Delete(path);
    }
}
