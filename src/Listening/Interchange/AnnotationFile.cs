namespace Harkbook.Listening.Interchange;

/// <summary>Opens an annotation by its file's ending: .jams, .mid or .midi, .lab.</summary>
public static class AnnotationFile
{
    public static bool IsKnown(string path) => Reader(path) is not null;

    public static Annotation Read(string path)
    {
        var reader = Reader(path)
            ?? throw new AnnotationException($"{path}: not an annotation that can be read; give a .jams, .mid or .lab file.");
        try
        {
            return AnnotationRules.Require(reader(path), path);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new AnnotationException($"{path}: there is no such file. Check the name and the folder.", e);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new AnnotationException($"{path}: can't be read ({e.Message.TrimEnd('.')}). Check your rights to the file, and that it is no folder.", e);
        }
    }

    private static Func<string, Annotation>? Reader(string path) => Path.GetExtension(path).ToLowerInvariant() switch
    {
        ".jams" => JamsReader.Read,
        ".mid" or ".midi" => MidiReader.Read,
        ".lab" => LabReader.Read,
        _ => null,
    };
}
