using Harkbook.Jobs.Files;
using Harkbook.Music.Songs;

namespace Harkbook.Workbench.Books;

/// <summary>A song as it stands on the shelf.</summary>
/// <param name="Id">Its file's path from the songbook's folder, with "/" between, without the ending.</param>
/// <param name="Song">Null where the file has mistakes.</param>
/// <param name="Lesson">When its last lesson was made; null where none was.</param>
public sealed record ShelfSong(string Id, SongDocument Document, Song? Song, DateTime Written, DateTime? Lesson)
{
    public string Title => Song?.Title ?? Path.GetFileName(Id);

    /// <summary>Chords, facts, shapes and sections that nobody has decided yet.</summary>
    public int OnlyHeard => Song is { } song ? Standings(song).Count(s => s.Kind == StandingKind.Heard) : 0;

    public ShelfState State => Song is not { } song ? ShelfState.BeingDecided
        : OnlyHeard == 0 ? Lesson > Written ? ShelfState.Published : ShelfState.Decided
        : Standings(song).All(s => s.Kind is StandingKind.Heard or StandingKind.Assumed) ? ShelfState.Heard : ShelfState.BeingDecided;

    public static ShelfSong Read(string root, string file)
    {
        var document = SongFolder.Document(file);
        var sheet = new FileInfo(Path.Combine(Path.GetDirectoryName(file)!, "lesson", "sheet.pdf"));
        return new(IdOf(root, file), document, document.Song, File.GetLastWriteTimeUtc(file), sheet.Exists ? sheet.LastWriteTimeUtc : null);
    }

    public static string IdOf(string root, string file) => Path.ChangeExtension(Path.GetRelativePath(root, file), null).Replace('\\', '/');

    private static IEnumerable<Standing> Standings(Song song) =>
    [
        song.Tuning.Standing, song.Capo.Standing, song.Key.Standing, song.Meter.Standing,
        .. song.Shapes.Select(s => s.Standing), .. song.Sections.Select(s => s.Standing), .. song.Bars.SelectMany(b => b.Chords).Select(c => c.Standing),
    ];
}
