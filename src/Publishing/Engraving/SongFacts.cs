using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving;

/// <summary>One fact of a song in words.</summary>
public sealed record PrintedFact(string Label, string Value, Standing Standing)
{
    /// <summary>"heard", with the confidence in percent where one was given; "" for a person's word.</summary>
    public string Doubt => Standing switch
    {
        { Kind: StandingKind.Heard, Confidence: { } c } => string.Create(CultureInfo.InvariantCulture, $"heard {Math.Round(c * 100)}%"),
        { Kind: StandingKind.Heard } => "heard",
        _ => "",
    };
}

/// <summary>A song's facts in players' words, in the order they are needed to play along.</summary>
public static class SongFacts
{
    public static ImmutableArray<PrintedFact> Of(Song song)
    {
        var facts = ImmutableArray.CreateBuilder<PrintedFact>();
        if (HasReference(song))
            facts.Add(new(song.Recording is null ? "pitch" : "pitch of the record", Reference(song.ReferencePitch.Value), song.ReferencePitch.Standing));
        facts.Add(new("tuning, low to high", string.Join(' ', song.Tuning.Value.Strings.Select(PitchText.Of)), song.Tuning.Standing));
        facts.Add(new("capo", CapoWords(song.Capo.Value, song.Tuning.Value), song.Capo.Standing));
        facts.Add(new("key", KeyWords(song), song.Key.Standing));
        facts.Add(new("meter", song.Meter.Value.ToString(), song.Meter.Standing));
        facts.Add(new("tempo", TempoWords(song), song.Tempo.Standing));
        if (song.Harp is { } harp)
            facts.Add(new("harmonica", HarpWords(harp.Value, song.Key.Value.Tonic), harp.Standing));
        return facts.ToImmutable();
    }

    /// <summary>A song without a recording has a pitch only where its file says one.</summary>
    public static bool HasReference(Song song) => song.Recording is not null || song.ReferencePitch.Standing.Kind != StandingKind.Assumed;

    /// <summary>"A = 443.2 Hz, 13 cents sharp".</summary>
    public static string Reference(Hertz a4)
    {
        var cents = Math.Round(Cents.Between(Hertz.A440, a4).Value);
        var side = cents switch { > 0 => $", {Counted(cents)} sharp", < 0 => $", {Counted(-cents)} flat", _ => "" };
        return string.Create(CultureInfo.InvariantCulture, $"A = {a4.Value:0.#} Hz") + side;
    }

    private static string Counted(double cents) => cents == 1 ? "1 cent" : $"{cents} cents";

    /// <summary>"G major; A minor in bridge; D major from bar 5 of coda".</summary>
    private static string KeyWords(Song song) => string.Join("; ", song.Sections
        .SelectMany(s => s.Keys.Select(k => Named(Own(song, k.Key)) + (k.Bar == 1 ? " in " : $" from bar {k.Bar} of ") + s.Name))
        .Distinct().Prepend(BothNames(song)));

    /// <summary>"Bb major, played as A major"; where the song's names are the hand's, "A major, sounds Bb major".</summary>
    private static string BothNames(Song song) => CapoNames.Of(song) is not { } names ? Named(song.Key.Value)
        : names.HandFirst ? $"{Named(names.Hand(song.Key.Value))}, sounds {Named(song.Key.Value)}"
        : $"{Named(song.Key.Value)}, played as {Named(names.Hand(song.Key.Value))}";

    private static Key Own(Song song, Key key) => CapoNames.Of(song) is { HandFirst: true } names ? names.Hand(key) : key;

    private static string Named(Key key) => PitchText.Of(key.Tonic) + " " + key.Mode;

    /// <summary>"96 beats a minute"; in a compound meter the felt beat is named, since it may not be the one that is counted.</summary>
    private static string TempoWords(Song song) =>
        TempoText.Of(song.Tempo.Value) + (song.Meter.Value is { IsCompound: true } meter ? $", of three {NoteOf(meter)} each" : "");

    private static string NoteOf(Meter meter) => meter.Lower == 8 ? "eighths" : "sixteenths";

    private static string CapoWords(Capo capo, Tuning tuning) =>
        capo.Fret == 0 ? "none"
        : $"fret {capo.Describe(tuning)}";

    private static string HarpWords(HarpReference harp, PitchName tonic)
    {
        var layout = harp.Layout == "richter" ? "" : harp.Layout + ", ";
        var position = harp.ToHarmonica().PositionFor(tonic);
        return $"in {PitchText.Of(harp)}, {layout}{OrdinalText.Of(position)} position";
    }
}
