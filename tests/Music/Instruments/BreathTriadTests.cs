using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Instruments;

public class BreathTriadTests
{
    private static readonly Harmonica InC = Harmonica.Richter(PitchName.Parse("C"));

    // Common practice: a harmonica blows its own key's chord, and low drawn holes give the chord a fifth up; F, Am and Em can't be had
    // on one breath. Runs worked by hand from the layout (OEIS A291810).
    [Fact]
    public void ARichterHarmonicaHasFourTriadsAndLacksThree()
    {
        var there = InC.Triads().Where(t => !t.Runs.IsEmpty).ToDictionary(t => t.Chord.ToString(), t => string.Join(' ', t.Runs));
        Assert.Equal(["Bdim", "C", "Dm", "G"], there.Keys.Order(StringComparer.Ordinal));
        Assert.Equal("-4–6 -8–10", there["Dm"]);
        Assert.Equal("-1–3 -1–4 -2–4", there["G"]);
        Assert.Equal("-3–5 -7–9", there["Bdim"]);
        Assert.StartsWith("+1–3", there["C"], StringComparison.Ordinal);
        Assert.Equal(["Am", "Em", "F"], InC.TriadsOutOfReach().Select(c => c.ToString()).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void EveryKeyLacksTheSameThreeMoved() =>
        Assert.All(Harmonica.UsualKeys, key => Assert.Equal(
            new[] { 4, 5, 9 },
            Harmonica.Richter(key).TriadsOutOfReach().Select(c => (c.Root.PitchClass - key.PitchClass + 12) % 12).Order()));

    // A natural minor harmonica blows its key's minor chord and draws the minor chord a fifth up (texts as in HarpLayoutTests).
    [Fact]
    public void ANaturalMinorHarmonicaHasBothMinorChords()
    {
        var chords = Harmonica.Of(HarpLayout.Find("natural-minor")!, PitchName.Parse("C")).Triads().Where(t => !t.Runs.IsEmpty).Select(t => t.Chord.ToString());
        Assert.Superset(new HashSet<string> { "Cm", "Gm" }, chords.ToHashSet());
    }
}
