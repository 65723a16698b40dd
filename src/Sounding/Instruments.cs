using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Reeds;
using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>Sounds played notes at a reference pitch.</summary>
/// <param name="tuning">The guitar's: it says which strings are on it, and so how stiff they are.</param>
internal sealed class Instruments(SampleRate rate, Hertz a4, Tuning tuning, Seconds length, int seed)
{
    public Signal Guitar(IEnumerable<PlayedNote> notes, StringSet strings, CancellationToken ct) => GuitarBlocks(notes, strings, ct).Gathered(rate);

    public Signal Harp(IEnumerable<BlownNote> notes, CancellationToken ct) => HarpBlocks(notes, ct).Gathered(rate);

    /// <summary>The same a block at a time.</summary>
    public IEnumerable<float[]> GuitarBlocks(IEnumerable<PlayedNote> notes, StringSet strings, CancellationToken ct)
    {
        var byString = notes.ToLookup(n => n.StringIndex);
        var count = byString.Count == 0 ? 0 : byString.Max(g => g.Key) + 1;
        var plucks = Enumerable.Range(0, count)
            .Select(s => byString[s].Select(n => new Pluck(n.At, n.Until, Frequency(n.Midi).Raised(n.Off), n.Strength, n.Kind, n.Motion)).ToArray());
        return new StringInstrument(rate, strings, seed, Stiffness(strings)).Blocks([.. plucks], length, ct);
    }

    /// <summary>As usual strings of the kind have it.</summary>
    private ImmutableArray<StringStiffness> Stiffness(StringSet strings)
    {
        var set = GaugeSet.All.First(g => g.IsNylon == (strings == StringSet.Nylon));
        return [.. tuning.Strings.Select((open, s) => new StringStiffness(Frequency(open.Midi), set.For(s, open.Midi).InharmonicityAt(open.Midi)))];
    }

    public IEnumerable<float[]> HarpBlocks(IEnumerable<BlownNote> notes, CancellationToken ct) =>
        new FreeReed(rate, seed + 1).Blocks(notes.Select(n => new ReedNote(n.At, n.Until, Frequency(n.Midi), n.Strength, Cents.FromCents(n.Hole.Bend < 0 ? 45
            : 0))), length, ct);

    public Hertz Frequency(int midi) => a4.Raised(Cents.FromCents(100.0 * (midi - 69)));
}
