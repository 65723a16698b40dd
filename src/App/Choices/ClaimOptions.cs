using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Harkbook.App.Messages;
using Harkbook.Jobs;
using Harkbook.Listening;
using Harkbook.Listening.Reading;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.App.Choices;

/// <summary>The options by which a person says what they know of a recording; all that hangs on it is then heard accordingly.</summary>
internal sealed class ClaimOptions
{
    private readonly Option<double?> pitch = new("--pitch") { Description = "What A4 is on the record, in Hz, where you know it", HelpName = "HZ" };
    private readonly Option<string?> tuning = GuitarOptions.TuningOption();
    private readonly Option<int?> capo = GuitarOptions.CapoOption();
    private readonly Option<double?> hand = HandOption.Create();
    private readonly Option<string?> tempo = new("--tempo")
    {
        Description = "The felt beats a minute where you know them, or half, double, third, triple, 2/3 or 3/2 of what is heard",
        HelpName = "TEMPO",
    };
    private readonly Option<string?> meter = new("--meter") { Description = "The meter where you know it, as 4/4 or 12/8", HelpName = "METER" };
    private readonly Option<string?> barOne = new("--bar-one") { Description = "A time in the recording at which a bar starts", HelpName = "TIME" };
    private readonly Option<string[]> beats = new("--beat")
    {
        Description = "Times in the recording at which beats fall, as you tap them",
        HelpName = "TIME",
        AllowMultipleArgumentsPerToken = true,
    };
    private readonly Option<string?> key = new("--key") { Description = "The song's key where you know it: \"D major\"", HelpName = "KEY" };
    private readonly Option<string?> harp = new("--harp") { Description = "The harmonica's key where you know it", HelpName = "KEY" };
    private readonly Option<string[]> without = new("--without")
    {
        Description = "A second instrument that isn't there: harmonica, voice, whistle or bowed",
        HelpName = "KIND",
        AllowMultipleArgumentsPerToken = true,
    };

    public void AddTo(Command command)
    {
        foreach (var option in new Option[] { tuning, capo, hand, pitch, tempo, meter, barOne, beats, key, harp, without })
            command.Add(option);
    }

    /// <summary>The A4 that is told; null where none is.</summary>
    public Hertz? Pitch(ParseResult parsed) =>
        parsed.GetValue(pitch) is not { } hertz ? null
        : hertz is >= 380 and <= 500 ? Hertz.FromHertz(hertz)
        : throw new UsageException(string.Create(CultureInfo.InvariantCulture, $"--pitch {hertz}: give what A4 is in Hz, from 380 to 500."));

    /// <summary>What is told about the guitar alone.</summary>
    public KnownGuitar Guitar(ParseResult parsed) => GuitarOptions.Read(parsed.GetValue(tuning), parsed.GetValue(capo));

    public bool TellBars(ParseResult parsed) => new Option[] { tempo, meter, barOne, beats }.Any(o => parsed.GetResult(o) is { Implicit: false });

    /// <summary>Refuses what makes no sense, before anything is listened to.</summary>
    public void Require(ParseResult parsed) => Read(parsed, heard: null);

    /// <summary>All that is told.</summary>
    /// <param name="heard">What a level of the tempo counts from, and how long the recording is.</param>
    public Claims Read(ParseResult parsed, Hearing? heard)
    {
        var guitar = Guitar(parsed);
        return new()
        {
            ReferencePitch = Pitch(parsed),
            Tuning = guitar.Tuning,
            Capo = guitar.Capo,
            Reach = HandOption.Read(parsed.GetValue(hand)),
            Tempo = parsed.GetValue(tempo) is { } felt ? ReadTempo(felt, heard?.Tempo.Best ?? 0) : null,
            Meter = parsed.GetValue(meter) is { } text ? ReadMeter(text) : null,
            Beats = [.. parsed.GetValue(barOne) is { } start ? [new BeatClaim(ReadTime("--bar-one", start), 1)] : Array.Empty<BeatClaim>(),
                .. (parsed.GetValue(beats) ?? []).Select(t => new BeatClaim(ReadTime("--beat", t)))],
            Keys = Options.ReadKey(parsed.GetValue(key)) is { } whole ? [new(default, heard?.Recording.Length ?? default, whole)] : [],
            HarpKey = parsed.GetValue(harp) is { } name ? ReadPitch(name) : null,
            Absent = [.. (parsed.GetValue(without) ?? []).Select(ReadKind)],
        };
    }

    private static TempoRange ReadTempo(string text, double heard) =>
        TempoLevel.TryParse(text, out var level) ? TempoRange.About(heard * level.Ratio)
        : double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var felt) && felt is >= 20 and <= 400 ? TempoRange.About(felt)
        : throw new UsageException(
            $"--tempo {text}: give felt beats a minute from 20 to 400, or {string.Join(", ", TempoLevel.Named.Select(n => n.Name))} of what is heard.");

    private static Meter ReadMeter(string text) =>
        Meter.TryParse(text, out var read) ? read : throw new UsageException($"--meter {text}: write a meter as 4/4, 3/4 or 12/8.");

    private static Seconds ReadTime(string option, string text) =>
        TimeText.TryRead(text, out var time) ? time : throw new UsageException($"{option} {text}: give a time in the recording, as in 0:12.4.");

    private static PitchName ReadPitch(string text) =>
        PitchName.TryParse(text, out var name) ? name : throw new UsageException($"--harp {text}: give the harmonica's key, as in D or Bb.");

    private static LineKind ReadKind(string text) =>
        Enum.TryParse<LineKind>(text, ignoreCase: true, out var kind) && !int.TryParse(text, out _) ? kind
            : throw new UsageException($"--without {text}: give harmonica, voice, whistle or bowed.");
}
