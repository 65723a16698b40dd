using System.Collections.Immutable;

namespace Harkbook.Music.Analysis.Practice;

/// <summary>How some bars are practised.</summary>
public sealed record PracticeOptions
{
    /// <summary>First and last bar of the song, 1 for its first.</summary>
    public required int FirstBar { get; init; }

    public required int LastBar { get; init; }

    /// <summary>Shares of the song's tempo in these bars, in order; 0.25 to 1.5, one to eight of them.</summary>
    public ImmutableArray<double> Speeds { get; init; } = [0.6, 0.75, 0.9, 1];

    /// <summary>How often the bars are played at each speed; 1 to 16.</summary>
    public int Rounds { get; init; } = 4;

    public RoundLead Lead { get; init; }

    /// <summary>
    /// Whether bars keep the lengths that they have on the record, to be practised with it; without, they run at their mean tempo,
    /// since practising against a wavering clock teaches the wavering.
    /// </summary>
    public bool AsRecorded { get; init; }

    /// <summary>Throws for values outside their ranges.</summary>
    /// <param name="bars">How many the song has.</param>
    internal void Require(int bars)
    {
        if (FirstBar < 1 || LastBar < FirstBar || LastBar > bars)
            throw new ArgumentOutOfRangeException(nameof(FirstBar), (FirstBar, LastBar), $"The song has bars 1 to {bars}.");
        if (Speeds.Length is < 1 or > 8 || Speeds.Any(s => s is not (>= 0.25 and <= 1.5)))
            throw new ArgumentOutOfRangeException(nameof(Speeds), string.Join(' ', Speeds),
                "Give one to eight speeds, each 0.25 to 1.5 times the song's tempo.");
        if (Rounds is < 1 or > 16)
            throw new ArgumentOutOfRangeException(nameof(Rounds), Rounds, "The bars are played 1 to 16 times at each speed.");
    }
}
