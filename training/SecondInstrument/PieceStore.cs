using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Signals;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Keeps rendered pieces in the work folder, since rendering takes longer than listening.</summary>
internal static class PieceStore
{
    public static Piece Get(string name, FontPlayer font, Func<Signal?, Piece> make)
    {
        var path = Path.Combine(font.Folder, name + ".wav");
        var made = make(File.Exists(path) ? WaveFile.Read(path) : null);
        if (!File.Exists(path))
            WaveFile.Write(path, made.Sound);
        return made;
    }
}
