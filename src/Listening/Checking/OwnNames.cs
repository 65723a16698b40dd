using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking;

/// <summary>Findings by the names that the song's file writes: where these are the hand's, so are those of chords, shapes and keys. Remedies stay.</summary>
public static class OwnNames
{
    public static CheckResult Of(CheckResult result, Song song) =>
        CapoNames.Of(song) is { HandFirst: true } names ? new([.. result.Findings.Select(f => Named(f, names))]) : result;

    private static Finding Named(Finding finding, CapoNames names) => finding.Kind switch
    {
        ClaimKind.Chord => Answered(finding, names) with { Claim = Moved(finding.Claim, 0, names)! },
        ClaimKind.Key => Answered(finding, names) with { Claim = Moved(finding.Claim, 1, names)! },
        ClaimKind.Shape => finding with { Claim = Moved(finding.Claim, 0, names)! },
        _ => finding,
    };

    private static Finding Answered(Finding finding, CapoNames names) =>
        finding with { Heard = Moved(finding.Heard, 0, names), Suggestion = Moved(finding.Suggestion, 0, names) };

    /// <summary>Moves a chord, or a key's home note, which stands at a word of the text.</summary>
    private static string? Moved(string? text, int word, CapoNames names) =>
        text is null ? null : string.Join(' ', text.Split(' ').Select((w, i) => i == word ? names.Hand(w) : w));
}
