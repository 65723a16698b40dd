namespace Harkbook.Listening.Estimators;

/// <summary>Trained weights from models/, embedded in the program.</summary>
internal static class ModelFile
{
    static ModelFile() => RuntimeReports.Forbid();

    public static byte[] Read(string name)
    {
        using var stream = typeof(ModelFile).Assembly.GetManifestResourceStream($"Harkbook.Listening.Models.{name}")
            ?? throw new InvalidOperationException($"models/{name} is missing from the program; it was built without its embedded files.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
