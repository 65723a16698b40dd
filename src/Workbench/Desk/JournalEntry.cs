namespace Harkbook.Workbench.Desk;

/// <summary>One change of a song file.</summary>
/// <param name="What">In a few words, as a person would say it: "bar 9: Bm".</param>
/// <param name="After">SHA-256 of the whole text as it was afterwards, in lower-case hexadecimal digits.</param>
public sealed record JournalEntry(DateTimeOffset On, ChangeKind Kind, string What, TextPatch Patch, string After);
