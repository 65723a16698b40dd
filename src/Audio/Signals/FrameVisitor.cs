namespace Harkbook.Audio.Signals;

/// <summary>Looks at the spectrum of one frame.</summary>
/// <param name="frame">From 0.</param>
/// <param name="magnitudes">Of that frame; they hold until the visitor returns.</param>
public delegate void FrameVisitor(int frame, ReadOnlySpan<float> magnitudes);
