using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Retuning;

/// <summary>A lower tuning that, under a capo, sounds as another does open.</summary>
public sealed record SameUnderCapo(NamedTuning Tuning, Capo Capo);

/// <summary>From one tuning to another on the same instrument, string by string.</summary>
/// <param name="Strings">From the low side.</param>
public sealed record TuningChange(Tuning From, Tuning To, ImmutableArray<StringChange> Strings)
{
    private const int HighestCapo = 7;

    /// <summary>Strings that are turned, those that go down first: slack strings unload the neck before others load it (common practice).</summary>
    public IEnumerable<StringChange> InOrder => Strings.Where(s => s.Semitones != 0).OrderBy(s => s.Semitones > 0).ThenByDescending(s => s.Number);

    /// <summary>How to turn the strings, in words that fit which of them go where (common practice).</summary>
    public string HowToTurn
    {
        get
        {
            var (down, up) = (Strings.Any(s => s.Semitones < 0), Strings.Any(s => s.Semitones > 0));
            var order = down && up ? ", the strings that go down first" : "";
            var again = Turned > 1 ? "; check the first ones again at the end, for the neck settles" : "; check the others at the end, for the neck settles";
            return $"Turn slowly{order}{again}.{(up ? " Keep your eyes away from a string that goes up." : "")}";
        }
    }

    public int Turned => Strings.Count(s => s.Semitones != 0);

    public int Semitones => Strings.Sum(s => Math.Abs(s.Semitones));

    /// <summary>The whole pull on the neck before and after; null unless every string's weight is known.</summary>
    public (Newtons Before, Newtons After)? Pull =>
        Strings.All(s => s.Before is not null)
            ? (Newtons.FromNewtons(Strings.Sum(s => s.Before!.Value.Value)), Newtons.FromNewtons(Strings.Sum(s => s.After!.Value.Value)))
            : null;

    /// <param name="weights">From the low side, null where unknown; or none at all.</param>
    /// <param name="scale">The neck's scale; needed for tensions only.</param>
    public static TuningChange Between(Tuning from, Tuning to, ImmutableArray<StringWeight?> weights = default, Length scale = default)
    {
        if (from.Count != to.Count)
            throw new ArgumentException($"{from.Count} strings can't be tuned to {to.Count}.", nameof(to));
        if (!weights.IsDefaultOrEmpty && weights.Length != from.Count)
            throw new ArgumentException($"{weights.Length} weights for {from.Count} strings; give one a string, null where it isn't known.", nameof(weights));
        return new(from, to, [.. from.Strings.Select((open, i) => new StringChange(from.StringNumber(i), open, to.Strings[i])
        {
            Before = weights.IsDefaultOrEmpty ? null : weights[i]?.Tension(scale, open.Frequency(Hertz.A440)),
        })]);
    }

    /// <summary>
    /// Named tunings that under a capo sound as the new tuning does open, and for which no string goes up (or fewer do): the
    /// way round a tight string. The lowest capo first.
    /// </summary>
    public IEnumerable<SameUnderCapo> Looser(string instrument) =>
        from named in TuningCatalogue.All
        where named.Instrument == instrument && named.Tuning.Count == To.Count
        let rise = To.ChangeFrom(named.Tuning)
        where rise[0] is >= 1 and <= HighestCapo && rise.All(r => r == rise[0])
        where Rises(named.Tuning) < Rises(To)
        orderby rise[0]
        select new SameUnderCapo(named, Capo.At(rise[0]));

    private int Rises(Tuning goal) => goal.ChangeFrom(From).Count(change => change > 0);
}
