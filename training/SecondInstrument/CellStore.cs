using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Keeps what the line network says of a piece beside its sound, so that what is made of it can be tried again in moments.</summary>
/// <param name="folder">The work folder; the weights' own hash is in each file's name.</param>
internal sealed class CellStore(string folder)
{
    private static readonly string weights = Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(Harkbook.Listening.Estimators.ModelFile.Read("lines.onnx")))[..8];

    public LineCell[][] Get(string name, Signal sound)
    {
        var path = Path.Combine(folder, $"{name}.{weights}.cells");
        if (!File.Exists(path))
            Write(path, Heard(sound));
        return Read(path);
    }

    private static LineCell[][] Heard(Signal sound)
    {
        using var scan = new LineScan();
        SpectraScan.Run(sound, Hertz.A440, [scan], null, default);
        return scan.Cells;
    }

    private static void Write(string path, LineCell[][] cells)
    {
        using var file = new BinaryWriter(File.Create(path));
        file.Write(cells.Length);
        foreach (var frame in cells)
        {
            file.Write(frame.Length);
            foreach (var cell in frame)
            {
                file.Write(cell.Pitch);
                foreach (var value in (float[])[cell.Kinds.Reed, cell.Kinds.Voice, cell.Kinds.Blown, cell.Kinds.Bowed, cell.Onset, cell.Off, cell.Level])
                    file.Write(value);
            }
        }
    }

    private static LineCell[][] Read(string path)
    {
        using var file = new BinaryReader(new BufferedStream(File.OpenRead(path), 1 << 20));
        var frames = new LineCell[file.ReadInt32()][];
        for (var f = 0; f < frames.Length; f++)
        {
            frames[f] = new LineCell[file.ReadInt32()];
            for (var i = 0; i < frames[f].Length; i++)
                frames[f][i] = new(file.ReadInt32(), new(Next(), Next(), Next(), Next()), Next(), Next(), Next());
        }
        return frames;

        float Next() => file.ReadSingle();
    }
}
