using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Strings;

namespace Harkbook.Sounding;

/// <summary>What is sounded.</summary>
[Flags]
public enum AuditionParts
{
    None = 0,
    Guitar = 1,
    Harp = 2,

    /// <summary>Short sung-like ticks on the chord's root where syllables start.</summary>
    Sung = 4,

    /// <summary>A tick on every felt beat, accented on the first of a bar.</summary>
    Click = 8,
    /// <summary>The tune as who sings or plays it would sound; syllables on its notes don't tick.</summary>
    Tune = 16,
    All = Guitar | Harp | Sung | Click | Tune,
}

/// <summary>Where claims and recording sit when they are heard against each other.</summary>
public enum AgainstPlacement
{
    /// <summary>Claims on the left, recording on the right.</summary>
    Sides,

    /// <summary>Both in the middle.</summary>
    Mixed,
}

/// <summary>How a song's claims are sounded.</summary>
public sealed record AuditionOptions
{
    /// <summary>All but the click.</summary>
    public const AuditionParts Usual = AuditionParts.Guitar | AuditionParts.Harp | AuditionParts.Sung | AuditionParts.Tune;

    public AuditionParts Parts { get; init; } = Usual;

    /// <summary>The only bars that click, by number; null for all of them where <see cref="AuditionParts.Click"/> is asked for.</summary>
    public ImmutableArray<int>? ClickedBars { get; init; }

    /// <summary>Bars of clicks before the first bar; 0 to 8.</summary>
    public int CountInBars { get; init; }

    /// <summary>1 is the record's own speed, 0.5 half of it; 0.25 to 2. The pitch stays.</summary>
    public double Speed { get; init; } = 1;

    /// <summary>First bar that sounds; null is the song's first.</summary>
    public int? FirstBar { get; init; }

    /// <summary>Last bar that sounds; null is the song's last.</summary>
    public int? LastBar { get; init; }

    public StringSet Strings { get; init; } = StringSet.Steel;

    /// <summary>
    /// The recording, at 44.1 kHz and already stretched to <see cref="Speed"/>, to be heard against the claims at the
    /// times that the song's anchors say; null sounds the claims alone.
    /// </summary>
    public ISound? Against { get; init; }

    public AgainstPlacement Placement { get; init; }

    /// <summary>Programme loudness of what comes out; −40 to −14 LUFS. True peaks stay under −1 dB of full scale.</summary>
    public Loudness Loudness { get; init; } = Loudness.FromLufs(-18);

    public int Seed { get; init; } = 1;
}
