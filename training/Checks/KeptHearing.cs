using System.IO.Compression;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;

namespace Harkbook.Training.Checks;

/// <summary>What is heard of NAME.wav, kept as NAME.heard until someone deletes it: hearing takes most of the time.</summary>
internal static class KeptHearing
{
    public static Hearing Read(string stem)
    {
        using var archive = ZipFile.OpenRead(stem + ".heard");
        using var heard = archive.GetEntry("hearing.json")!.Open();
        return HearingJson.Read(heard) with { Evidence = EvidenceFile.Read(archive) };
    }

    public static async Task MakeAsync(string stem)
    {
        var hearing = await new Listener().ListenAsync(await RecordingReader.InspectAsync(stem + ".wav"), null, default);
        using (var archive = new ZipArchive(File.Create(stem + ".part"), ZipArchiveMode.Create))
        {
            using (var stream = archive.CreateEntry("hearing.json", CompressionLevel.Fastest).Open())
                HearingJson.Write(hearing, stream);
            EvidenceFile.Write(hearing.Evidence, archive);
        }
        File.Move(stem + ".part", stem + ".heard", overwrite: true);
    }
}
