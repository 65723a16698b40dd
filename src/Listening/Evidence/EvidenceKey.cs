using System.Reflection;
using System.Security.Cryptography;
using System.Text;

namespace Harkbook.Listening.Evidence;

/// <summary>
/// Names all that evidence and readings hang on beside the recording: every assembly of ours that listening uses, with the data and weights embedded in
/// it (a deterministic build gives the assembly another identity when any of it changes), and the library that runs the networks.
/// </summary>
public static class EvidenceKey
{
    /// <summary>Twelve hexadecimal digits.</summary>
    public static string OfThisProgram { get; } = Digits(string.Join('\n', Identities()));

    private static string Digits(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..12];

    private static IEnumerable<string> Identities()
    {
        var (own, runtime) = (typeof(EvidenceKey).Assembly, typeof(Microsoft.ML.OnnxRuntime.InferenceSession).Assembly);
        return own.GetReferencedAssemblies()
            .Where(n => n.Name!.StartsWith("Harkbook.", StringComparison.Ordinal)).Select(Assembly.Load).Append(own)
            .Select(a => $"{a.GetName().Name} {a.ManifestModule.ModuleVersionId:N}").Append(runtime.FullName!).Order(StringComparer.Ordinal);
    }
}
