using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Writing;

/// <summary>A change of key as a section writes it.</summary>
internal static class KeyText
{
    public static string Write(Key key, int bar) => bar == 1 ? key.ToString() : $"{key} from {bar}";
}
