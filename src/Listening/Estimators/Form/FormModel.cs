using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.Form;

/// <summary>What a form costs and earns, in models/form.json.</summary>
/// <param name="Colour">What tone colour counts in how alike bars are; harmony counts 1.</param>
/// <param name="Texture">What singing, strokes and picking count in it.</param>
/// <param name="Repeats">What a section earns a bar for how alike it is to another stretch, over what is usual in the song.</param>
/// <param name="Holds">What it earns a bar for how alike its bars are in colour and texture.</param>
/// <param name="Changes">What a border earns for the change at it.</param>
/// <param name="Section">What each section costs.</param>
/// <param name="Lengths">What sections of 4, 8, 12, 16 and other even and odd numbers of bars cost more.</param>
/// <param name="Alike">How alike two sections must be to share a letter (0–1).</param>
internal sealed record FormModel(
    double Colour, double Texture, double Repeats, double Holds, double Changes, double Section, ImmutableArray<double> Lengths, double Alike)
{
    public static FormModel Shipped { get; } = FittedNumbers.Read<File>("form.json").Numbers;

    public double LengthCost(int bars) => bars switch
    {
        4 => Lengths[0],
        8 => Lengths[1],
        12 => Lengths[2],
        16 => Lengths[3],
        _ => bars % 2 == 0 ? Lengths[4] : Lengths[5],
    };

    private sealed record File(FormModel Numbers);
}
