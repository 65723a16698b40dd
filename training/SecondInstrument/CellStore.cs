using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Keeps what the line network says of a piece beside its sound, so that what is made of it can be tried again in moments.</summary>
/// <param name="folder">The work folder; the weights' own hash is in each file's name.</param>
internal sealed class CellStore(string folder)
{
    private static readonly string weights = Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(Harkbook.Listening.Estimators.ModelFile.Read("lines.onnx")))[..8];

    public LineCells Get(string name, Signal sound)
    {
        var path = Path.Combine(folder, $"{name}.{weights}.cells");
        if (!File.Exists(path))
            Write(path, Heard(sound));
        return Read(path);
    }

    private static LineCells Heard(Signal sound)
    {
        using var scan = new LineScan();
        SpectraScan.Run(sound, Hertz.A440, [scan], null, default);
        return scan.Cells;
    }

    private static void Write(string path, LineCells heard)
    {
        using var file = new BinaryWriter(File.Create(path));
        var (counts, cells) = heard.Packed();
        file.Write(counts.Length);
        file.Write(cells.Length);
        file.Write(counts);
        file.Write(cells);
    }

    private static LineCells Read(string path)
    {
        using var file = new BinaryReader(File.OpenRead(path));
        var (frames, bytes) = (file.ReadInt32(), file.ReadInt32());
        return LineCells.Unpacked(file.ReadBytes(frames), file.ReadBytes(bytes));
    }
}
