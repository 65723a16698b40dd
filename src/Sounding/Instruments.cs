using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Reeds;
using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>Sounds played notes at a reference pitch.</summary>
internal sealed class Instruments(SampleRate rate, Hertz a4, Seconds length, int seed)
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
        return new StringInstrument(rate, strings, seed).Blocks([.. plucks], length, ct);
    }

    public IEnumerable<float[]> HarpBlocks(IEnumerable<BlownNote> notes, CancellationToken ct) =>
        new FreeReed(rate, seed + 1).Blocks(notes.Select(n => new ReedNote(n.At, n.Until, Frequency(n.Midi), n.Strength, Cents.FromCents(n.Hole.Bend < 0 ? 45
            : 0))), length, ct);

    public Hertz Frequency(int midi) => a4.Raised(Cents.FromCents(100.0 * (midi - 69)));
}
