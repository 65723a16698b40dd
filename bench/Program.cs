using System.Globalization;
using Harkbook.Bench.Outside;
using Harkbook.Bench.Speed;

return args switch
{
    ["speed", var recording] => await SpeedTable.WriteAsync(recording, Console.Out),
    ["outside", var into] => OutsideFolder.Write(OutsidePiece.DebianFolder, into, 600),
    ["outside", var into, var midi] => OutsideFolder.Write(midi, into, 600),
    ["outside", var into, var midi, var seconds] => OutsideFolder.Write(midi, into, double.Parse(seconds, CultureInfo.InvariantCulture)),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine("""
        dotnet run -c Release --project bench -- speed RECORDING
            times our real FFT against two libraries', and listening against ffmpeg's decoding
        dotnet run -c Release --project bench -- outside INTO [MIDI-FOLDER [SECONDS]]
            renders the folder's steady pieces and writes their truth beside them, for ./harkbook eval INTO
        """);
    return 2;
}
