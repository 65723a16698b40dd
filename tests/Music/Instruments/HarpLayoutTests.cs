using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Instruments;

public class HarpLayoutTests
{
    // Differences from the Richter layout as texts of harmonica shops tell them (theharmonicacompany.com, larkinthemorning.com,
    // bluesharmonica.com); harmonic minor from memory. Blow holes are written +, draw holes -.
    [Theory]
    [InlineData("country", "-5 F#5")]
    [InlineData("country-five-nine", "-5 F#5, -9 F#6")]
    [InlineData("raised-three", "+3 A4")]
    [InlineData("raised-three-five-nine", "+3 A4, -5 F#5, -9 F#6")]
    [InlineData("natural-minor", "+2 Eb4, +5 Eb5, +8 Eb6, -3 Bb4, -7 Bb5")]
    [InlineData("natural-minor-first", "+2 Eb4, +5 Eb5, +8 Eb6, -3 Bb4, -6 Ab5, -7 Bb5, -10 Ab6")]
    [InlineData("harmonic-minor", "+2 Eb4, +5 Eb5, +8 Eb6, -6 Ab5, -10 Ab6")]
    public void ALayoutDiffersFromRichterInTheseHoles(string name, string differences)
    {
        var (layout, richter) = (HarpLayout.Find(name)!, HarpLayout.Richter);
        var found = new[] { (Sign: '+', Mine: layout.Blow, Theirs: richter.Blow), (Sign: '-', Mine: layout.Draw, Theirs: richter.Draw) }
            .SelectMany(side => Enumerable.Range(0, 10).Where(i => side.Mine[i] != side.Theirs[i]).Select(i => $"{side.Sign}{i + 1} {side.Mine[i]}"));
        Assert.Equal(differences, string.Join(", ", found));
    }

    // What each is played for (the same texts): the scale from the position's tonic lies on unbent notes.
    [Theory]
    [InlineData("natural-minor", 2, "G A Bb C D Eb F")]
    [InlineData("natural-minor-first", 1, "C D Eb F G Ab Bb")]
    [InlineData("harmonic-minor", 1, "C D Eb F G Ab B")]
    [InlineData("raised-three-five-nine", 2, "G A B C D E F#")]
    [InlineData("country-five-nine", 2, "G A B C D E F#")]
    public void AScaleLiesOnPlainNotes(string name, int position, string scale)
    {
        var harp = Harmonica.Of(HarpLayout.Find(name)!, PitchName.Parse("C"));
        Assert.Equal(scale.Split(' ')[0], harp.KeyInPosition(position).ToString());
        var plain = harp.AllNotes.Where(n => n.Technique == HarpTechnique.Plain).Select(n => harp.PitchOf(n).Name.PitchClass).ToHashSet();
        Assert.Equal(scale.Split(' ').Select(n => PitchName.Parse(n).PitchClass).Order(), plain.Order());
    }

    // A twelve-hole chromatic harmonica in solo tuning (brendan-power.com, jt30.com): C E G C blown and D F A B drawn three times over, the
    // slide a semitone up, so that every note of three octaves is there without bending.
    [Fact]
    public void AChromaticHarmonicaHasEveryNoteOfThreeOctaves()
    {
        var harp = Harmonica.Of(HarpLayout.Find("chromatic")!, PitchName.Parse("C"));
        Assert.Equal(Enumerable.Range(60, 37), harp.AllNotes.Select(n => harp.PitchOf(n).Midi).Distinct().Order().Take(37));
        Assert.Equal(48, harp.AllNotes.Length);
        Assert.DoesNotContain(harp.AllNotes, n => n.Bend != 0);
        Assert.All(harp.AllNotes.Where(n => n.Slide), n => Assert.Equal(harp.PitchOf(n with { Slide = false }).Midi + 1, harp.PitchOf(n).Midi));
        Assert.Equal(harp.PitchOf(HarpNote.Parse("+4")), harp.PitchOf(HarpNote.Parse("+5")));
        Assert.Equal("F4", harp.PitchOf(HarpNote.Parse("+2<")).ToString());
    }

    [Fact]
    public void EveryLayoutHasAReedForEachBreathInEachHole() =>
        Assert.All(HarpLayout.All, layout =>
        {
            Assert.Contains(layout.Blow.Length, new[] { 10, 12 });
            Assert.Equal(layout.Blow.Length, layout.Draw.Length);
            Assert.Equal(layout.HasSlide ? layout.Holes : 0, layout.BlowSlide.Length);
            Assert.Equal(layout.HasSlide ? layout.Holes : 0, layout.DrawSlide.Length);
        });

    // Worked by hand: a made-up harmonica of three holes.
    [Fact]
    public void AnyTableIsAnInstrument()
    {
        var layout = Assert.Single(HarpLayout.ReadTable("# three holes\nbell\tblow\tC4 E4 G4\tours\nbell\tdraw\tD4 G4 B4\tours\n"));
        var harp = Harmonica.Of(layout, PitchName.Parse("D"));
        Assert.Equal((3, "bell"), (harp.Holes, harp.Layout.Name));
        Assert.Equal("D4 F#4 A4", string.Join(' ', harp.Together(Breath.Blow, 1, 3).Pitches));
        Assert.Equal("-3''' Bb4", $"-3''' {harp.PitchOf(HarpNote.Parse("-3'''"))}");
    }

    // Low harmonicas lie an octave under the usual ones, a high G an octave over (theharmonicacompany.com, low tunings).
    [Theory]
    [InlineData("F", -1, "low F", "F3")]
    [InlineData("C", -1, "low C", "C3")]
    [InlineData("G", 1, "high G", "G4")]
    [InlineData("G", 0, "G", "G3")]
    public void LowAndHighOnesHaveTheirNames(string key, int octave, string name, string lowest)
    {
        var harp = Harmonica.Richter(PitchName.Parse(key), octave);
        Assert.Equal((name, lowest), (harp.Name, harp.PitchOf(HarpNote.Parse("+1")).ToString()));
    }
}
