namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>
/// What a player's hand and ear are taken to mind, in one currency: about one unit for a finger that must find a new place.
/// Our judgement, tried on made pieces (training/Fretting).
/// </summary>
public sealed record FretWeights
{
    public static FretWeights Usual { get; } = new();

    /// <summary>A note that no string takes: another instrument's, or misheard. Scaled by the note's confidence.</summary>
    public double Unplaced { get; init; } = 10;

    /// <summary>The part of that for a note an octave, a twelfth or two octaves from one struck with it: it may be no note at all.</summary>
    public double Echo { get; init; } = 0.4;

    /// <summary>A finger placed anew; a string that stops at the fret where it last did is free.</summary>
    public double NewFinger { get; init; } = 0.6;

    /// <summary>An open string while the hand is within the first four frets, and what each fret further up adds.</summary>
    public double Open { get; init; } = 0.25;

    public double OpenPerFret { get; init; } = 0.12;

    /// <summary>Each fret of a pressed note: players stay low where nothing speaks against it.</summary>
    public double Height { get; init; } = 0.025;

    /// <summary>Reaching a fret behind the index finger's or past the little finger's (<see cref="FretReach"/>).</summary>
    public double Stretch { get; init; } = 0.5;

    /// <summary>Any shift of the hand, and each fret of it; more where there is little time.</summary>
    public double Shift { get; init; } = 0.5;

    public double ShiftPerFret { get; init; } = 0.12;

    /// <summary>A string struck anew at another fret while its last note is heard on; the whole cost from half a second's overlap.</summary>
    public double CutShort { get; init; } = 2;

    /// <summary>The hand leaving a pressed note that is heard on.</summary>
    public double LetGo { get; init; } = 1.4;

    /// <summary>A silent string between two sounded together, and two strings whose pitches cross.</summary>
    public double Gap { get; init; } = 0.22;

    public double Crossing { get; init; } = 0.6;

    /// <summary>Sounding a pitch elsewhere than the rest of the piece does.</summary>
    public double Habit { get; init; } = 1.2;

    /// <summary>Laying a finger across strings; needing more than four fingers.</summary>
    public double Barre { get; init; } = 0.35;

    public double FifthFinger { get; init; } = 1.5;
}
