using CsCheck;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Theory;

/// <summary>Made-up chords for properties: any set of degrees on any root over any bass.</summary>
internal static class AnyChord
{
    public static Gen<PitchName> Name { get; } = Gen.Int[-15, 19].Select(PitchName.FromFifths);

    public static Gen<Chord> Of(int highestDegree) =>
        Gen.Select(Name, Quality(highestDegree), Name, Gen.Bool, (root, quality, bass, inRoot) => Chord.Of(root, quality, inRoot ? root : bass));

    public static Gen<ChordQuality> Quality(int highestDegree) =>
        Gen.Select(Gen.Int[1, highestDegree], Gen.Int[-2, 2], Interval.FromDegree).List[1, 8].Select(list => ChordQuality.Of(list));
}
