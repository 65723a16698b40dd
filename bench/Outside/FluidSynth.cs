using System.Diagnostics;
using System.Globalization;

namespace Harkbook.Bench.Outside;

/// <summary>Renders a MIDI file with the programs and the small General MIDI sound font that Debian ships (fluidsynth, timgm6mb-soundfont), and ffmpeg to cut it.</summary>
public static class FluidSynth
{
    public const string Font = "/usr/share/sounds/sf2/TimGM6mb.sf2";

    /// <summary>What isn't installed of all that outside music needs, as Debian packages; empty where everything is there.</summary>
    public static string[] Missing() =>
    [
        .. new (bool There, string Package)[]
        {
            (OnPath("fluidsynth"), "fluidsynth"), (OnPath("ffmpeg"), "ffmpeg"), (File.Exists(Font), "timgm6mb-soundfont"),
            (Directory.Exists(OutsidePiece.DebianFolder), "openttd-openmsx"),
        }.Where(n => !n.There).Select(n => n.Package),
    ];

    /// <summary>Writes the first seconds of a rendering, with the synthesizer's own room, as a 44.1 kHz WAV file.</summary>
    public static void Render(string midi, string wave, double seconds)
    {
        var whole = wave + ".whole.wav";
        try
        {
            Run("fluidsynth", "-q", "-ni", "-g", "0.5", "-r", "44100", "-F", whole, Font, midi);
            Run("ffmpeg", "-v", "error", "-y", "-i", whole, "-t", seconds.ToString(CultureInfo.InvariantCulture), wave);
        }
        finally
        {
            File.Delete(whole);
        }
    }

    private static bool OnPath(string program) =>
        (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Any(folder => File.Exists(Path.Combine(folder, program)));

    private static void Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true, RedirectStandardOutput = true })
            ?? throw new InvalidOperationException($"{program} did not start.");
        var errors = process.StandardError.ReadToEndAsync();
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} ended with {process.ExitCode}: {errors.Result}");
    }
}
