using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Diagrams;

namespace Harkbook.Examples;

/// <summary>Finds the easiest way to play a chord in a tuning, prints it with its runners-up, and draws its diagram as SVG.</summary>
public static class DrawChord
{
    public static string Run(string symbol, string openStrings, TextWriter output)
    {
        var (chord, tuning, capo) = (ChordSymbol.Read(symbol), Tuning.Parse(openStrings), Capo.None);
        var found = VoicingSearch.Find(chord, tuning, capo);
        foreach (var voicing in found.Take(3))
            output.WriteLine($"{voicing.Shape}  {string.Join(' ', voicing.Shape.Pitches(tuning, capo, chord))}  effort {voicing.Cost.Total:0.00}");

        var subject = new ChordDiagramSubject(found[0].Shape, symbol, tuning, capo, Standing.Decided);
        return SvgWriter.Write(ChordDiagram.Engrave(subject, ChordDiagramStyle.Print), Palette.Paper);
    }
}
