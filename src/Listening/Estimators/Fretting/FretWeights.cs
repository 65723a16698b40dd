namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>
/// What a player's hand and ear are taken to mind, in one currency: about one unit for a finger that must find a new place.
/// models/fretting.json holds the usual ones.
/// </summary>
public sealed record FretWeights
{
    public static FretWeights Usual { get; } = FittedNumbers.Read<Shipped>("fretting.json").Weights;

    /// <summary>A note that no string takes: another instrument's, or misheard. Scaled by the note's confidence.</summary>
    public required double Unplaced { get; init; }

    /// <summary>The part of that for a note an octave, a twelfth or two octaves from one struck with it: it may be no note at all.</summary>
    public required double Echo { get; init; }

    /// <summary>A finger placed anew; a string that stops at the fret where it last did is free.</summary>
    public required double NewFinger { get; init; }

    /// <summary>An open string while the hand is within the first four frets, and what each fret further up adds.</summary>
    public required double Open { get; init; }

    public required double OpenPerFret { get; init; }

    /// <summary>Each fret of a pressed note: players stay low where nothing speaks against it.</summary>
    public required double Height { get; init; }

    /// <summary>Reaching a fret behind the index finger's or past the little finger's (<see cref="FretReach"/>).</summary>
    public required double Stretch { get; init; }

    /// <summary>Any shift of the hand, and each fret of it; more where there is little time.</summary>
    public required double Shift { get; init; }

    public required double ShiftPerFret { get; init; }

    /// <summary>A string struck anew at another fret while its last note is heard on; the whole cost from half a second's overlap.</summary>
    public required double CutShort { get; init; }

    /// <summary>The hand leaving a pressed note that is heard on.</summary>
    public required double LetGo { get; init; }

    /// <summary>A silent string between two sounded together, and two strings whose pitches cross.</summary>
    public required double Gap { get; init; }

    public required double Crossing { get; init; }

    /// <summary>Sounding a pitch elsewhere than the rest of the piece does.</summary>
    public required double Habit { get; init; }

    /// <summary>Each e-fold by which the stiffness of a note's string speaks for another string.</summary>
    public required double Stiffness { get; init; }

    /// <summary>Laying a finger across strings; needing more than four fingers.</summary>
    public required double Barre { get; init; }

    public required double FifthFinger { get; init; }

    private sealed record Shipped(FretWeights Weights);
}
