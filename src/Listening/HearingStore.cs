using System.Globalization;
using System.IO.Compression;
using System.Text.Json;
using Harkbook.Audio.Recordings;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;
using Harkbook.Units;

namespace Harkbook.Listening;

/// <summary>
/// Keeps Hearings with their evidence in a folder, by recording hash and <see cref="EvidenceKey"/>, so that a recording is listened to once.
/// The folder may be deleted at any time; a file that can't be read is as good as absent.
/// </summary>
public sealed class HearingStore(string folder)
{
    private const string Reading = "hearing.json";

    /// <summary>What names the program that heard, so that another hears anew.</summary>
    public string Key { get; init; } = EvidenceKey.OfThisProgram;

    /// <summary>In the user's cache folder.</summary>
    public static HearingStore Default { get; } = new(CacheFolder.Path);

    /// <param name="about">The A4 that pitches were to be counted from; null for the one that was measured.</param>
    public Hearing? Find(Recording recording, Hertz? about = null)
    {
        try
        {
            using var archive = ZipFile.OpenRead(PathOf(recording, about));
            using var reading = (archive.GetEntry(Reading) ?? throw new FormatException("The file holds no Hearing.")).Open();
            return HearingJson.Read(reading) with { Recording = recording, Evidence = EvidenceFile.Read(archive) };
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or JsonException or FormatException or ArgumentException
            or InvalidDataException or OverflowException)
        {
            return null;
        }
    }

    /// <summary>Keeps a Hearing; where the folder can't be written to, nothing is kept and nothing else is harmed.</summary>
    /// <param name="about">As <see cref="Find"/> asks for it.</param>
    public void Keep(Hearing hearing, Hertz? about = null)
    {
        try
        {
            Directory.CreateDirectory(folder);
            AtomicFile.Write(PathOf(hearing.Recording, about), stream => Write(hearing, stream));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
        }
    }

    private static void Write(Hearing hearing, Stream stream)
    {
        using var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);
        using (var reading = archive.CreateEntry(Reading, CompressionLevel.Fastest).Open())
            HearingJson.Write(hearing, reading);
        EvidenceFile.Write(hearing.Evidence, archive);
    }

    private string PathOf(Recording recording, Hertz? about) => Path.Combine(folder, string.Create(CultureInfo.InvariantCulture,
        $"{recording.ContentHash[..32]}-{Key}{(about is { } a4 ? $"-{a4.Value:0.00}" : "")}.hearing"));
}
