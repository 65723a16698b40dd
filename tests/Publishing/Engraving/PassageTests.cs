using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Diagrams;
using Harkbook.Publishing.Engraving.Tabs;

namespace Harkbook.Publishing.Tests.Engraving;

public class PassageTests
{
    private static readonly IReadOnlyList<Music.Songs.Bar> Break = SampleSongs.LanternFerry.Sections[1].Bars;

    [Fact]
    public void TabNamesItsStringsFromTheTop()
    {
        var drawing = TabBlock.Engrave(Break, new(SampleSongs.LanternFerry.Tuning.Value), 520);
        Layout.IsSound(drawing);
        Assert.Equal(["D4", "A3", "F♯3", "D3", "A2", "D2"], Layout.Texts(drawing)
            .Where(t => t.Length > 1 && char.IsAsciiLetterUpper(t[0]) && char.IsAsciiDigit(t[^1])).Take(6));
        Golden.Check("tab.svg", SvgWriter.Write(drawing, Palette.Paper));
    }

    [Theory]
    [InlineData(120)]
    [InlineData(300)]
    [InlineData(1800)]
    public void PassagesFitAnyWidth(double width)
    {
        Layout.IsSound(TabBlock.Engrave(Break, new(SampleSongs.LanternFerry.Tuning.Value), width));
        Layout.IsSound(HarpStrip.Engrave(Break, width));
    }

    [Fact]
    public void HarpStripLooksAsApproved() => Golden.Check("harp-strip.svg", SvgWriter.Write(HarpStrip.Engrave(Break, 520), Palette.Screen));

    [Fact]
    public void EmptyPassagesAreRefused() => Assert.Throws<ArgumentException>(() => HarpStrip.Engrave([], 500));

    // Ten-hole Richter in A: blow A C# E …, draw B E G# B D F# … (en.wikipedia "Richter-tuned harmonica", draw 6 and 10 mended to F#).
    [Fact]
    public void AHarpShowsItsNotes()
    {
        var drawing = HarpDiagram.Engrave(Harmonica.Richter(PitchName.Parse("A")), [], 30);
        var rows = drawing.Marks.OfType<TextMark>().GroupBy(t => t.Tint).ToDictionary(g => g.Key, g => string.Join(' ', g.Select(t => t.Text)));
        Assert.Equal("A C♯ E A C♯ E A C♯ E A", rows[Tint.Blow]);
        Assert.Equal("B E G♯ B D F♯ G♯ B D F♯", rows[Tint.Draw]);
        Layout.IsSound(drawing);
    }

    // Draw 3 on an A harp is G#; bent two semitones it is F# (common practice).
    [Fact]
    public void WhatSoundsIsLit()
    {
        var drawing = HarpDiagram.Engrave(Harmonica.Richter(PitchName.Parse("A")), [HarpNote.Parse("-3''")], 30);
        Assert.Contains("F♯′′", Layout.Texts(drawing));
        Assert.Equal("3", Assert.Single(drawing.Marks.OfType<TextMark>(), t => t.Tint == Tint.OnColour).Text);
        Layout.IsSound(drawing);
        Golden.Check("harp.svg", SvgWriter.Write(drawing, Palette.Screen));
    }
}
