using System.Xml.Linq;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Examples;
using Harkbook.Music.Songs;
using Harkbook.Sounding;

namespace Harkbook.App.Tests;

/// <summary>The small programs of docs/examples/library do what docs/library.md says of them.</summary>
public sealed class ExampleTests : IDisposable
{
    private const string Song = """
        title      Four Gates
        recording  four-gates.wav
        pitch      A4 = 440 Hz
        tuning     E2 A2 D3 G3 B3 E4
        capo       none
        meter      4/4
        tempo      90
        key        D major
        shape D xx0232
        shape G 320003
        shape A x02220
        section Gates
          anchors 1 = 0:00.000
          chords | D | G | A | D | D | G | A | D |
          strum  | d d d d | d d d d | d d d d | d d d d | d d d d | d d d d | d d d d | d . . . |
        """;

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("harkbook-examples-");
    private readonly StringWriter output = new();

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task TheChordsOfARecordingArePrinted()
    {
        await PrintChords.RunAsync(Record(Song), output, TestContext.Current.CancellationToken);

        Assert.StartsWith("D major, ", Lines[0]);
        Assert.Contains("A4 = 440", Lines[0]);
        Assert.Equal(["D", "G", "A", "D", "G", "A", "D"], Lines.Skip(1).Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1]));
    }

    [Fact]
    public async Task ASongIsCheckedAndWhatIsWrongIsNamed()
    {
        Record(Song);
        // The recording has G in bar 2; the song claims a chord that shares no note with it.
        var path = Write(Song.Replace("chords | D | G |", "chords | D | F#m |", StringComparison.Ordinal));

        await CheckSong.RunAsync(path, output, TestContext.Current.CancellationToken);

        var line = Assert.Single(Lines, l => l.StartsWith("bar 2:", StringComparison.Ordinal) && l.Contains("F#m", StringComparison.Ordinal));
        Assert.EndsWith("F#m; G heard", line);
        Assert.Contains("7 of 8 chords are supported", Lines);
    }

    // G minor is G, Bb and D; the six open strings D A D F# A D are named at the diagram's foot.
    [Fact]
    public void AChordIsDrawn()
    {
        var svg = XDocument.Parse(DrawChord.Run("Gm", "D2 A2 D3 F#3 A3 D4", output));

        Assert.All(Lines, line => Assert.Subset(new HashSet<char>("GBD"), line.Split("  ")[1].Where(char.IsLetter).Where(char.IsUpper).ToHashSet()));
        var words = svg.Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value).ToArray();
        Assert.Contains("Gm", string.Concat(words));
        Assert.Equal("AADDDF", string.Concat(words.SelectMany(w => w).Where(c => c is >= 'A' and <= 'F').Order()));
    }

    // Common practice: the open strings of D A D G A D are called Dsus4; x02210 in standard tuning is A minor.
    [Theory]
    [InlineData("000000", "D2 A2 D3 G3 A3 D4", "D major", "D2 A2 D3 G3 A3 D4", "Dsus4")]
    [InlineData("x02210", "E2 A2 D3 G3 B3 E4", "C major", "A2 E3 A3 C4 E4", "Am")]
    public void AShapeIsNamed(string frets, string tuning, string key, string sounds, string name)
    {
        NameShape.Run(frets, tuning, key, output);

        Assert.Equal($"{frets} sounds {sounds}", Lines[0]);
        Assert.StartsWith(name + ":", Lines[1]);
    }

    [Fact]
    public void ChordsAreReadInTheirKey()
    {
        var path = Path.Combine(folder.FullName, "four-gates.hark");
        File.WriteAllText(path, Song);

        ReadHarmony.Run(path, output);

        Assert.Equal(["D I", "G IV", "A V", "D I", "D I", "G IV", "A V", "D I"],
            Lines.Take(8).Select(l => string.Join(' ', l.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1..3])));
        Assert.EndsWith("every note is in D major", Lines[0].TrimEnd());
    }

    [Fact]
    public void ChaptersAreWritten()
    {
        var path = Write("""
            title Three Gates
            tempo 60
            meter 4/4
            section Intro
              anchors 1 = 0:02.000
              chords | C |
            section Verse
              anchors 1 = 0:20.500
              chords | F |
            section Ending
              anchors 1 = 1:05.000
              chords | G |
            """);

        WriteChapters.Run(path, 80, output);

        Assert.Equal(["0:00 Intro", "0:20 Verse", "1:05 Ending"], Lines);
        Assert.StartsWith("WEBVTT", File.ReadAllText(Path.ChangeExtension(path, ".vtt")));
    }

    [Theory]
    [InlineData("PrintChords")]
    [InlineData("DrawChord")]
    [InlineData("NameShape")]
    [InlineData("ReadHarmony")]
    [InlineData("CheckSong")]
    [InlineData("WriteChapters")]
    public void TheDocumentationQuotesItWhole(string program)
    {
        var root = Repository.Root;
        var source = File.ReadAllText(Path.Combine(root, "docs", "examples", "library", program + ".cs")).ReplaceLineEndings("\n");
        var guide = File.ReadAllText(Path.Combine(root, "docs", "library.md")).ReplaceLineEndings("\n");
        Assert.Contains($"```csharp\n{source}```\n", guide);
    }

    private string[] Lines => output.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    /// <summary>Plays the song with our own strings, onto the recording that it names.</summary>
    private string Record(string song)
    {
        var path = Path.Combine(folder.FullName, "four-gates.wav");
        WaveFile.Write(path, Audition.Render(SongText.Parse(song, "four-gates.hark").Song!, new AuditionOptions(), TestContext.Current.CancellationToken));
        return path;
    }

    private string Write(string song)
    {
        var path = Path.Combine(folder.FullName, "four-gates.hark");
        File.WriteAllText(path, song);
        return path;
    }
}
