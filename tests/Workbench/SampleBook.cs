using Harkbook.Publishing.Tests.Lessons;

namespace Harkbook.Workbench.Tests;

/// <summary>A songbook of one song without a recording, in a folder of its own.</summary>
internal sealed class SampleBook : IDisposable
{
    public const string Text = """
        ; by the fire, in June
        title      Lantern Row
        tuning     E2 A2 D3 G3 B3 E4   ; nothing turned
        key        G major             ~heard 61%

        shape      G   320003  ~heard 70%
        shape      C   x32010
        shape      D   xx0232

        section    Verse 1
        chords     | G? . . . | C . G . | D?44 . . . | G . . . |   ; slowly
        section    Verse 2 like Verse 1

        """;

    private readonly TemporaryFolder outer = new();

    public SampleBook()
    {
        Directory.CreateDirectory(Path.GetDirectoryName(SongPath)!);
        File.WriteAllText(SongPath, Text);
    }

    /// <summary>The folder that the songbook's folder lies in, with which the workbench has nothing to do.</summary>
    public string Outside => outer.Path;

    public string Folder => Path.Combine(outer.Path, "book");

    public string SongPath => Path.Combine(Folder, "lantern-row", "lantern-row.hark");

    public const string Id = "lantern-row/lantern-row";

    public void Dispose() => outer.Dispose();
}
