using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;

namespace Harkbook.Music.Songs;

/// <summary>The song file: plain text, described in docs/song-file.md.</summary>
public static class SongText
{
    /// <summary>Reads any text. What is wrong with it is said in the document's diagnostics; nothing is thrown.</summary>
    /// <param name="fileName">For the diagnostics only.</param>
    public static SongDocument Parse(string text, string fileName)
    {
        var source = new SourceText(text);
        var syntax = new SongSyntax(source);
        var bag = new DiagnosticBag(source, fileName);
        var song = new SongReader(syntax, bag).Read();
        var diagnostics = bag.InOrder();
        return new(fileName, diagnostics.Any(d => d.Severity == Severity.Error) ? null : song, diagnostics, syntax);
    }

    /// <summary>A fresh, aligned file that reads back to an equal song. Confidences are kept in whole percents.</summary>
    public static string Write(Song song) => new SongWriter(song).Write();
}
