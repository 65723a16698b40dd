using Harkbook.Units;

namespace Harkbook.Listening.Evidence;

/// <summary>
/// All that measurements and networks say of a recording's sound, before anything is decided: a reading decides (<see cref="Reading.Reader"/>), and
/// can decide again when a person claims something, without the sound.
/// </summary>
public sealed record SoundEvidence
{
    /// <summary>Nothing was listened to.</summary>
    public static SoundEvidence None { get; } = new();

    /// <summary>What A4 is, as measured.</summary>
    public Distribution<Hertz> ReferencePitch { get; init; } = new(new Candidate<Hertz>(Hertz.A440, 0, "not measured"));

    /// <summary>The A4 that pitches are counted from: the likeliest, or one that a person told.</summary>
    public Hertz HeardAbout { get; init; } = Hertz.A440;

    public NotePosteriorgram Notes { get; init; } = NotePosteriorgram.None;

    /// <summary>At which posteriors notes begin and end, as the network's makers chose.</summary>
    internal NotePickOptions Picking { get; init; } = new();

    /// <summary>How stiff the strings of the notes are.</summary>
    internal StiffnessEvidence Stiffness { get; init; } = StiffnessEvidence.None;

    internal PulseSound Pulse { get; init; } = PulseSound.None;

    internal LineCells Lines { get; init; } = LineCells.None;

    internal SoundColour Colour { get; init; } = SoundColour.None;

    /// <summary>Whether rules stood in for trained weights where they can: the yardstick for the networks.</summary>
    public bool IsClassical { get; init; }
}
