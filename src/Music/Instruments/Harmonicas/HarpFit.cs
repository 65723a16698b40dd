using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Harmonicas;

/// <summary>How well a harmonica suits some notes.</summary>
/// <param name="Cost">0 when every note is plain; the mean over the notes of what each asks.</param>
/// <param name="Ways">How each is played, in the tune's order: one note, or those of one breath; empty where it can't be played.</param>
public sealed record HarpFit(Harmonica Harp, double Cost, ImmutableArray<ImmutableArray<HarpNote>> Ways)
{
    /// <summary>Pitches that this harmonica hasn't got, each once.</summary>
    public required ImmutableArray<Pitch> Unreachable { get; init; }

    /// <summary>How often notes that sound together would need two breaths at once, or holes too far apart for a mouth.</summary>
    public required int NotTogether { get; init; }

    public int Plain => Count(HarpTechnique.Plain);

    /// <summary>How many notes need the slide pressed in; the same pitch twice counts twice.</summary>
    public int Slid => Count(HarpTechnique.Slide);

    public int Bent => Count(HarpTechnique.Bent);

    public int OverBent => Count(HarpTechnique.OverBent);

    /// <summary>How often the breath turns from out to in or back.</summary>
    public int BreathChanges => Steps.Count(s => s.From.Breath != s.To.Breath);

    /// <summary>Holes that the mouth moves over, all steps together.</summary>
    public int HolesMoved => Steps.Sum(s => Math.Abs(s.From.Hole - s.To.Hole));

    private IEnumerable<(HarpNote From, HarpNote To)> Steps
    {
        get
        {
            var played = Ways.Where(w => !w.IsEmpty).Select(w => w[0]).ToArray();
            return played.Zip(played.Skip(1));
        }
    }

    private int Count(HarpTechnique technique) => Ways.Sum(w => w.Count(n => n.Technique == technique));
}
