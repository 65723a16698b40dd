using System.Globalization;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Rebarring;

/// <summary>How a song is to be barred anew: at another level of its beats, in another meter, with its bars starting later or earlier.</summary>
/// <param name="Meter">Null where the level says it: a third of a simple meter's beats are 12/8, three times a compound meter's are 3/4, else it stays.</param>
/// <param name="Later">By how many beats of the song as it stands bars and sections start later; below 0 earlier.</param>
public sealed record BarChange(TempoLevel Level, Meter? Meter = null, Beats Later = default)
{
    private const string Command = "rebar ";

    public Meter MeterFrom(Meter before) => Meter ?? Usual(before);

    /// <summary>What a bar of some meter becomes by the level alone.</summary>
    public Meter Usual(Meter before) => (Level.Over, Level.Under, before.IsCompound) switch
    {
        (1, 3, false) => Theory.Meter.Of(12, 8),
        (2, 3, false) => before.BeatsPerBar == 3 ? Theory.Meter.Of(6, 8) : Theory.Meter.Of(12, 8),
        (3, _, true) => Theory.Meter.Of(3, 4),
        _ => before,
    };

    /// <summary>The same with its meter said.</summary>
    public BarChange On(Meter before) => this with { Meter = MeterFrom(before) };

    /// <summary>What leads back to a song that was in a meter.</summary>
    public BarChange Inverse(Meter before) => new(Level.Inverse, before, Level.Of(Later) * -1);

    /// <summary>The change of bars that a kept text stood before; null where something else was changed.</summary>
    public static BarChange? After(EarlierText kept) =>
        kept.What.StartsWith(Command, StringComparison.Ordinal) && TryParse(kept.What[Command.Length..], out var change) ? change : null;

    /// <summary>Whether this leads straight back to a kept text, from the song in its meter of now.</summary>
    public bool Undoes(EarlierText kept, Meter now, Song earlier) => After(kept)?.Inverse(earlier.Meter.Value) == On(now);

    /// <summary>What a kept text says of this change.</summary>
    public string Kept => Command + this;

    /// <summary>Reads what <see cref="ToString"/> writes.</summary>
    public static bool TryParse(string words, out BarChange change)
    {
        change = new(TempoLevel.Same);
        foreach (var pair in words.Split(' ').Chunk(2))
        {
            var value = pair.ElementAtOrDefault(1) ?? "";
            if (pair[0] == "--tempo" && TempoLevel.TryParse(value, out var level))
                change = change with { Level = level };
            else if (pair[0] == "--meter" && Theory.Meter.TryParse(value, out var meter))
                change = change with { Meter = meter };
            else if (pair[0] is "--later" or "--earlier" && TryBeats(value, out var beats))
                change = change with { Later = beats * (pair[0] == "--later" ? 1 : -1) };
            else
                return false;
        }
        return true;
    }

    /// <summary>Beats more than none, whole or as a fraction: "1", "1/2".</summary>
    public static bool TryBeats(string text, out Beats beats)
    {
        beats = default;
        var parts = text.Split('/');
        var under = 1;
        if (!int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var over) || over is < 1 or > 999 || parts.Length > 2
            || (parts.Length == 2 && (!int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out under) || under is < 1 or > 16)))
            return false;
        beats = Beats.Fraction(over, under);
        return true;
    }

    /// <summary>As the command line says it: "--tempo half --meter 12/8 --later 1".</summary>
    public override string ToString()
    {
        var words = new List<string>();
        if (Level != TempoLevel.Same)
            words.Add($"--tempo {Level}");
        if (Meter is { } meter)
            words.Add($"--meter {meter}");
        if (Later != Beats.Zero)
            words.Add(Later > Beats.Zero ? $"--later {Later}" : $"--earlier {Later * -1}");
        return string.Join(' ', words);
    }
}
