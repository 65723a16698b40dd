using System.Collections.Immutable;

namespace Harkbook.Music.Analysis;

/// <summary>One thing worth saying about a song: a sentence in a player's words, and the computed facts that it rests on.</summary>
/// <param name="Kind">What is remarked on, for programs and tests.</param>
/// <param name="Sentence">Whole sentences that read well aloud, without symbols that can't be spoken.</param>
/// <param name="Facts">What was computed; never empty, so that every sentence can be opened and checked.</param>
public sealed record Remark(RemarkKind Kind, string Sentence, ImmutableArray<RemarkFact> Facts)
{
    /// <summary>Where in the song it holds, in playing order; empty where it holds of the whole song.</summary>
    public ImmutableArray<SongPlace> Places { get; init; } = [];

    /// <summary>How usual it is, and by which measure; null where nothing is claimed about that.</summary>
    public Usualness? Usualness { get; init; }

    /// <summary>Which part of the explanation it belongs to.</summary>
    public RemarkTopic Topic => RemarkTopics.Of(Kind);
}

/// <summary>A computed fact behind a sentence.</summary>
/// <param name="Name">What was computed, as in "numeral" or "roughness".</param>
/// <param name="Value">What came out, with its unit.</param>
/// <param name="Method">How: the rule, paper or table, as docs/sources.md cites it.</param>
public sealed record RemarkFact(string Name, string Value, string Method);
