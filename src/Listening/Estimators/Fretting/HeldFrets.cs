namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>One way to sound notes struck together with the index finger at a fret.</summary>
/// <param name="Position">The fret of the index finger, from the capo.</param>
/// <param name="NoteOfString">By string index: the place of a note in the struck list, or −1.</param>
/// <param name="FretOfString">By string index; −1 where nothing sounds.</param>
/// <param name="Cost">What it costs whatever came before.</param>
internal sealed record HeldFrets(int Position, sbyte[] NoteOfString, sbyte[] FretOfString, double Cost);
