using System.Globalization;
using Harkbook.Examples;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
switch (args)
{
    case ["chords", var recording]:
        await PrintChords.RunAsync(recording, Console.Out);
        return 0;
    case ["draw", var chord, var tuning, var svg]:
        File.WriteAllText(svg, DrawChord.Run(chord, tuning, Console.Out));
        return 0;
    case ["name", var shape, var tuning, var key]:
        NameShape.Run(shape, tuning, key, Console.Out);
        return 0;
    case ["harmony", var song]:
        ReadHarmony.Run(song, Console.Out);
        return 0;
    case ["check", var song]:
        await CheckSong.RunAsync(song, Console.Out);
        return 0;
    case ["chapters", var song, var seconds]:
        WriteChapters.Run(song, double.Parse(seconds, CultureInfo.InvariantCulture), Console.Out);
        return 0;
    default:
        Console.Error.WriteLine("chords RECORDING | draw CHORD TUNING SVG-FILE | name SHAPE TUNING KEY | harmony SONG | check SONG | chapters SONG SECONDS");
        return 2;
}
