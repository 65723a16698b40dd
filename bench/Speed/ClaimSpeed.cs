using System.Globalization;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Reading;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Bench.Speed;

/// <summary>How much processor time reading again takes after one claim of each kind, against hearing the recording for the first time.</summary>
internal static class ClaimSpeed
{
    private const int Rounds = 3;

    /// <summary>Prints a table in Markdown.</summary>
    public static async Task<int> WriteAsync(string path, TextWriter output)
    {
        var recording = await RecordingReader.InspectAsync(path);
        Hearing heard = null!;
        var first = Clocked.Time(() => heard = new Listener().ListenAsync(recording, null, CancellationToken.None).GetAwaiter().GetResult());
        output.WriteLine(Invariant($"{recording.Length.Value:0} s, heard in {first:0.0} s of processor time\n"));
        output.WriteLine("| one claim | read again in | first hearing, times |\n|---|---|---|");
        foreach (var (name, claims) in Kinds(heard))
        {
            var again = Clocked.Medians(Rounds, () => Clocked.Time(() => Reader.Again(heard, claims)))[0];
            output.WriteLine(Invariant($"| {name} | {again:0.00} s | 1/{first / again:0} |"));
        }
        return 0;
    }

    private static IEnumerable<(string Name, Claims Claims)> Kinds(Hearing heard)
    {
        var none = Claims.None;
        var chord = heard.Chords[heard.Chords.Length / 2];
        var (start, end) = (chord.Start, chord.End);
        yield return ("a chord", none with { Chords = [new(start, end, ChordSymbol.Read("Bb7"))] });
        yield return ("a key", none with { Keys = [new(start, end, heard.MainKey!.Best)] });
        yield return ("the tuning", none with { Tuning = Tuning.Standard });
        yield return ("the capo", none with { Capo = Capo.At(2) });
        yield return ("the harmonica's key", none with { HarpKey = PitchName.Parse("G") });
        yield return ("a section's border", none with { Borders = [start] });
        yield return ("one beat", none with { Beats = [new(heard.Beats[heard.Beats.Length / 2].Time + Seconds.FromSeconds(0.05), 1)] });
        yield return ("the meter", none with { Meter = Meter.Parse("3/4") });
        yield return ("the tempo", none with { Tempo = TempoRange.About(heard.Tempo.Best / 2) });
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
