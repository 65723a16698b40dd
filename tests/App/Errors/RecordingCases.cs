using Harkbook.Audio.Tests.Recordings;

namespace Harkbook.App.Tests.Errors;

/// <summary>Recordings that can't be used.</summary>
internal static class RecordingCases
{
    /// <summary>A picture of one pixel (PNG, ISO/IEC 15948).</summary>
    private static readonly byte[] picture = Convert.FromBase64String(
        "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==");

    public static ErrorCase[] All { get; } =
    [
        new("the file isn't there", _ => { }, "listen", "gone.wav"),
        new("the file isn't there", _ => { }, "start", "gone.wav", "--into", "new/song"),
        new("the file isn't there", s => s.Take().Song(), "check", "gone.wav", "song"),
        new("it is a folder", _ => { }, "listen", "."),
        new("the name is blank", _ => { }, "listen", ""),
        new("it is empty", s => s.File("a.wav", ""), "listen", "a.wav"),
        new("it is empty", s => s.File("a.mp3", ""), "start", "a.mp3"),
        new("a part needs stereo", s => s.Take(), "listen", "take.wav", "--on", "side"),
        new("a part needs stereo", s => s.Take().Song(), "audition", "song", "--on", "pan:-100..-50+held"),
        new("it is silent", s => s.File("a.wav", Wave(new byte[32_000])), "listen", "a.wav", "--jams", "new/a.jams"),
        new("it is silent", s => s.File("a.wav", Wave(new byte[32_000])), "start", "a.wav", "--into", "new/er/song"),
        new("it is shorter than 1 s", s => s.Take(0.3), "listen", "take.wav"),
        new("it is longer than 3 h", TenHours, "listen", "long.wav"),
        new("it is longer than 3 h", TenHours, "start", "long.wav", "--into", "song"),
        new("it is cut short", s => s.File("a.wav", Bytes.Wave(8000, 1, 16, 1, Bytes.Tone16(8000, 4), dataSize: 160_000)), "listen", "a.wav"),
        new("it is cut short", s => s.File("a.aif", Bytes.Aiff("AIFF", 1, 16, 441_000, new byte[88_200])), "start", "a.aif"),
        new("it is cut short", s => Half(s, "mp3"), "listen", "half.mp3") { NeedsFfmpeg = true },
        new("it is cut short", s => Half(s, "flac"), "start", "half.flac", "--into", "song") { NeedsFfmpeg = true },
        new("it is cut short (Ogg, Opus)", s => Half(s, "ogg"), "listen", "half.ogg") { NeedsFfmpeg = true },
        new("it is cut short (Ogg, Opus)", s => Half(s, "opus"), "start", "half.opus") { NeedsFfmpeg = true },
        new("it is cut short (M4A, MP4)", s => Half(s, "m4a"), "listen", "half.m4a") { NeedsFfmpeg = true },
        new("it is copy-protected", s => s.File("a.m4p", ProtectedMp4.Of("drms")), "listen", "a.m4p") { NeedsFfmpeg = true },
        new("it is copy-protected", s => s.File("a.m4a", ProtectedMp4.Of("enca")), "start", "a.m4a") { NeedsFfmpeg = true },
        new("it isn't a sound file", s => s.File("a.wav", "the words of a song\n"), "listen", "a.wav") { NeedsFfmpeg = true },
        new("it isn't a sound file", s => s.File("a.mp3", Noise()), "listen", "a.mp3") { NeedsFfmpeg = true },
        new("it is a picture or a silent film", s => s.File("a.png", picture), "listen", "a.png") { NeedsFfmpeg = true },
        new("a WAV holds no sound", s => s.File("a.wav", [.. Bytes.Ascii("RIFF"), .. Bytes.Little(4), .. Bytes.Ascii("WAVE")]), "listen", "a.wav"),
        new("a sample isn't a number", s => s.File("a.wav", Bytes.Wave(8000, 1, 32, 3, Bytes.Floats([.. Enumerable.Repeat(0.1f, 9000), float.NaN, 0.1f]))),
            "listen", "a.wav"),
        new("its sample rate can't be", s => s.File("a.wav", Bytes.Wave(1000, 1, 16, 1, Bytes.Tone16(1000, 2))), "listen", "a.wav"),
        new("its channels can't be", s => s.File("a.wav", Bytes.Wave(8000, 65, 16, 1, new byte[65 * 2 * 8000])), "listen", "a.wav"),
        new("ffmpeg is missing", s => s.File("a.mp3", Noise()).WithoutFfmpeg = true, "listen", "a.mp3"),
    ];

    private static byte[] Wave(byte[] samples) => Bytes.Wave(8000, 1, 16, 1, samples);

    private static byte[] Noise()
    {
        var bytes = new byte[20_000];
        new Random(1).NextBytes(bytes);
        return bytes;
    }

    /// <summary>Ten hours of silence as a file with a hole, which takes no room on the disk.</summary>
    private static void TenHours(Scene scene)
    {
        const uint Size = 36_000 * 8000;
        using var stream = File.Create(scene.PathOf("long.wav"));
        stream.Write(Bytes.Wave(8000, 1, 8, 1, [], dataSize: Size));
        stream.SetLength(44 + Size);
    }

    private static void Half(Scene scene, string ending)
    {
        scene.Take(10);
        Ffmpeg.Make(scene, "-i", "take.wav", "whole." + ending);
        var bytes = File.ReadAllBytes(scene.PathOf("whole." + ending));
        scene.File("half." + ending, bytes[..(bytes.Length / 2)]);
    }
}
