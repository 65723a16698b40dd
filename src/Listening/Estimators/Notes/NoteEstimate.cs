using System.Collections.Immutable;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>Notes by onset, and the evidence that they were picked from.</summary>
public sealed record NoteEstimate(ImmutableArray<HeardNote> Notes, NotePosteriorgram Evidence);
