namespace Harkbook.Audio.Recordings;

/// <summary>Where this user's programs keep what can be made again; it may be emptied at any time.</summary>
public static class CacheFolder
{
    /// <summary>$XDG_CACHE_HOME/harkbook, ~/.cache/harkbook or the system's equivalent.</summary>
    public static string Path { get; } = System.IO.Path.Combine(Home(), "harkbook");

    private static string Home() =>
        Environment.GetEnvironmentVariable("XDG_CACHE_HOME") is { Length: > 0 } home
            ? home
            : OperatingSystem.IsWindows()
                ? Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData)
                : System.IO.Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".cache");
}
