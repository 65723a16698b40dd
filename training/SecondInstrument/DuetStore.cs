using Harkbook.Audio.Recordings;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Keeps rendered pieces in the work folder, since rendering takes longer than listening.</summary>
internal static class DuetStore
{
    public static Duet Get(int index, int seed, FontPlayer font, double length)
    {
        var path = Path.Combine(font.Folder, $"{font.Name}-{seed}-{index}-{length:0}.wav");
        var made = Duet.Make(index, seed, font, length, File.Exists(path) ? WaveFile.Read(path) : null);
        if (!File.Exists(path))
            WaveFile.Write(path, made.Sound);
        return made;
    }
}
