namespace Harkbook.Listening.Checking.Notes;

/// <summary>A note that is claimed to be played.</summary>
/// <param name="BentBy">Semitones that it is bent by to reach its pitch; it may be heard anywhere on the way.</param>
/// <param name="IsJoined">Hammered, pulled or slid: its start is soft.</param>
internal readonly record struct NoteClaim(int Midi, double Onset, double End, int BentBy = 0, bool IsJoined = false);
