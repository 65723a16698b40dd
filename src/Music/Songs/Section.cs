using System.Collections.Immutable;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>A stretch of the song's form.</summary>
/// <param name="Anchors">Bars of this section (1 = its first) tied to times in the recording, rising.</param>
public sealed record Section(string Name, ImmutableArray<Anchor> Anchors, ImmutableArray<Bar> Bars)
{
    /// <summary>Who says that a section starts and ends here.</summary>
    public Standing Standing { get; init; } = Standing.Decided;

    /// <summary>Changes of key, rising by bar; empty where the whole section is in the song's key.</summary>
    public ImmutableArray<KeyChange> Keys { get; init; } = [];

    /// <summary>Who sings or plays the tune here; null where it is the song's (<see cref="Song.TunePlayer"/>).</summary>
    public TunePlayer? TunePlayer { get; init; }

    /// <summary>The key of a bar of this section (1 = its first).</summary>
    public Key KeyAt(int bar, Key song) => Keys.LastOrDefault(k => k.Bar <= bar)?.Key ?? song;

    public bool Equals(Section? other) =>
        other is not null
        && Name == other.Name
        && Standing == other.Standing
        && TunePlayer == other.TunePlayer
        && Anchors.AsSpan().SequenceEqual(other.Anchors.AsSpan())
        && Keys.AsSpan().SequenceEqual(other.Keys.AsSpan())
        && Bars.AsSpan().SequenceEqual(other.Bars.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Name, Anchors.Length, Bars.Length);
}

/// <summary>The start of a bar of a section (1 = the first; one past the last marks its end), or a beat in it, at a time in the recording.</summary>
public sealed record Anchor(int Bar, Seconds At)
{
    /// <summary>Felt beats from the bar's start.</summary>
    public Beats Beat { get; init; }

    public Standing Standing { get; init; } = Standing.Decided;
}
