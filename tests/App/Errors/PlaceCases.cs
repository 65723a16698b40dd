namespace Harkbook.App.Tests.Errors;

/// <summary>Places that results can't go to.</summary>
internal static class PlaceCases
{
    public static ErrorCase[] All { get; } =
    [
        .. Places("a file is in a folder's place", "file/new"),
        .. OperatingSystem.IsLinux() ? Places("nothing can be written there", "/proc/new") : [],
        new("a folder is in a file's place", s => s.Song().File("a.pdf/b", ""), "songbook", "song", "--page", "a.pdf"),
        new("a folder is in a file's place", s => s.Take(), "listen", "take.wav", "--jams", "."),
        new("a folder is in a file's place", s => s.Take().Song().File("a.wav/b", ""), "audition", "song", "--to", "a.wav"),
        new("a compressed file needs ffmpeg", s => s.Take().Song().WithoutFfmpeg = true, "audition", "song", "--to", "new/a.mp3"),
    ];

    private static ErrorCase[] Places(string when, string folder) =>
    [
        new(when, Ready, "start", "take.wav", "--into", folder),
        new(when, Ready, "listen", "take.wav", "--jams", folder + "/a.jams"),
        new(when, Ready, "audition", "song", "--to", folder + "/a.wav"),
        new(when, Ready, "publish", "song", "--into", folder),
        new(when, Ready, "songbook", "song", "--page", folder + "/index.pdf"),
        new(when, Ready, "demo", "--into", folder),
    ];

    private static void Ready(Scene scene) => scene.Take().Song().File("file", "text");
}
