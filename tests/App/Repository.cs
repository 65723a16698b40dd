namespace Harkbook.App.Tests;

/// <summary>Where the sources lie that the tests were built from.</summary>
internal static class Repository
{
    public static string Root { get; } = Find();

    private static string Find()
    {
        var at = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(at, "Harkbook.slnx")))
            at = Path.GetDirectoryName(at) ?? throw new DirectoryNotFoundException("The tests run inside the repository.");
        return at;
    }
}
