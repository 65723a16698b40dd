using System.Runtime.CompilerServices;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>One pitch that may sound in a frame.</summary>
internal struct Tone
{
    public const int Harmonics = 10;

    /// <summary>Pitch in semitones on the MIDI scale about the recording's reference pitch.</summary>
    public float Midi;

    /// <summary>How much of the frame it explains; arbitrary units.</summary>
    public float Salience;

    /// <summary>Place in the stereo picture, −1 to 1.</summary>
    public float Side;

    /// <summary>How far its upper partials stand above whole multiples, in cents.</summary>
    public float Stretch;

    /// <summary>Power, through a short window, of those of its harmonics that no other tone shares.</summary>
    public float BriefPower;

    /// <summary>Amplitude of each harmonic that is its own.</summary>
    public Levels Level;

    [InlineArray(Harmonics)]
    public struct Levels
    {
        private float first;
    }
}
