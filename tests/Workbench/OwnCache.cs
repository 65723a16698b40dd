using System.Runtime.CompilerServices;

namespace Harkbook.Workbench.Tests;

/// <summary>What these tests hear and sound is kept in a folder of their own, not in that of whoever runs them.</summary>
internal static class OwnCache
{
    [ModuleInitializer]
    internal static void Use() => Environment.SetEnvironmentVariable("XDG_CACHE_HOME", Directory.CreateTempSubdirectory("harkbook-test-cache-").FullName);
}
