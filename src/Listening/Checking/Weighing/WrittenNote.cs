namespace Harkbook.Listening.Checking.Weighing;

/// <summary>A note that is claimed to sound, whoever plays it.</summary>
/// <param name="Onset">In seconds.</param>
/// <param name="End">In seconds.</param>
internal readonly record struct WrittenNote(int Midi, double Onset, double End);
