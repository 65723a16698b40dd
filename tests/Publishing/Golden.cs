using System.Runtime.CompilerServices;

namespace Harkbook.Publishing.Tests;

/// <summary>
/// Compares text with a file that a person has looked at. Run with HARKBOOK_GOLDEN=write to accept what is drawn now,
/// then look at the difference before committing it.
/// </summary>
public static class Golden
{
    public static void Check(string name, string actual, [CallerFilePath] string caller = "")
    {
        var folder = Path.Combine(Path.GetDirectoryName(caller)!, "Golden");
        var source = Path.Combine(folder, name);
        if (Environment.GetEnvironmentVariable("HARKBOOK_GOLDEN") == "write")
        {
            Directory.CreateDirectory(folder);
            File.WriteAllText(source, actual);
        }
        Assert.True(File.Exists(source), $"There is no golden file {source}; look at the drawing, then run with HARKBOOK_GOLDEN=write.");
        Assert.Equal(File.ReadAllText(source), actual);
    }
}
