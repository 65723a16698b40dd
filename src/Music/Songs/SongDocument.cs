using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;

namespace Harkbook.Music.Songs;

/// <summary>A song file as it stands, byte for byte, and the song that it says.</summary>
public sealed class SongDocument
{
    internal SongDocument(string fileName, Song? song, ImmutableArray<Diagnostic> diagnostics, SongSyntax syntax)
    {
        FileName = fileName;
        Song = song;
        Diagnostics = diagnostics;
        Syntax = syntax;
    }

    public string FileName { get; }

    /// <summary>Null when a diagnostic is an error.</summary>
    public Song? Song { get; }

    /// <summary>In the order of their places.</summary>
    public ImmutableArray<Diagnostic> Diagnostics { get; }

    /// <summary>The file's text, unchanged: comments, spaces and line ends among it.</summary>
    public string Text => Syntax.Source.Text;

    internal SongSyntax Syntax { get; }
}
