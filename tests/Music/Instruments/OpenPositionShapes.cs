namespace Harkbook.Music.Tests.Instruments;

/// <summary>
/// Open-position shapes in standard tuning. The frets are the first shapes stored in @tombatossals/chords-db 0.5.1
/// (npm, MIT licence, copyright David Rubert) and common practice; Bm is the root-position form. The pitches follow from
/// the definition of standard tuning, worked outside this project.
/// </summary>
internal static class OpenPositionShapes
{
    public static TheoryData<string, string, string> All => new()
    {
        { "C", "x32010", "C3 E3 G3 C4 E4" },
        { "C7", "x32310", "C3 E3 Bb3 C4 E4" },
        { "D", "xx0232", "D3 A3 D4 F#4" },
        { "D7", "xx0212", "D3 A3 C4 F#4" },
        { "E", "022100", "E2 B2 E3 G#3 B3 E4" },
        { "E7", "020100", "E2 B2 D3 G#3 B3 E4" },
        { "G", "320003", "G2 B2 D3 G3 B3 G4" },
        { "G7", "320001", "G2 B2 D3 G3 B3 F4" },
        { "A", "x02220", "A2 E3 A3 C#4 E4" },
        { "A7", "x02020", "A2 E3 G3 C#4 E4" },
        { "F", "133211", "F2 C3 F3 A3 C4 F4" },
        { "B7", "x21202", "B2 D#3 A3 B3 F#4" },
        { "Dm", "xx0231", "D3 A3 D4 F4" },
        { "Dm7", "xx0211", "D3 A3 C4 F4" },
        { "Em", "022000", "E2 B2 E3 G3 B3 E4" },
        { "Em7", "022030", "E2 B2 E3 G3 D4 E4" },
        { "Am", "x02210", "A2 E3 A3 C4 E4" },
        { "Am7", "x02010", "A2 E3 G3 C4 E4" },
        { "Bm", "x24432", "B2 F#3 B3 D4 F#4" },
        { "Fmaj7", "xx3210", "F3 A3 C4 E4" },
        { "Dmaj7", "xx0222", "D3 A3 C#4 F#4" },
        { "Gmaj7", "320002", "G2 B2 D3 G3 B3 F#4" },
        { "Amaj7", "x02120", "A2 E3 G#3 C#4 E4" },
        { "Cadd9", "x32030", "C3 E3 G3 D4 E4" },
        { "Dsus2", "xx0230", "D3 A3 D4 E4" },
        { "Dsus4", "xx0233", "D3 A3 D4 G4" },
        { "Asus2", "x02200", "A2 E3 A3 B3 E4" },
        { "Asus4", "x02230", "A2 E3 A3 D4 E4" },
        { "Esus4", "022200", "E2 B2 E3 A3 B3 E4" },
        { "A7sus4", "x02030", "A2 E3 G3 D4 E4" },
        { "E7sus4", "020200", "E2 B2 D3 A3 B3 E4" },
        { "C/G", "332010", "G2 C3 E3 G3 C4 E4" },
        { "D/F#", "200232", "F#2 A2 D3 A3 D4 F#4" },
        { "G/B", "x20033", "B2 D3 G3 D4 G4" },
    };
}
