using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Lessons.Pieces;
using Harkbook.Publishing.Lessons.Sounds;
using Harkbook.Units;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>Invented songs of a few seconds, and sounds for them.</summary>
public static class LessonSongs
{
    /// <summary>Four bars of a second each from 0.2 s on, a new chord on each, in two sections; with every part.</summary>
    public static Song FourBars { get; } = Read("""
        title   Four Bars to Tamsin Quay
        player  Orla Brand
        tuning  D2 A2 D3 F#3 A3 D4
        capo    2
        meter   4/4
        tempo   240
        key     D major
        harp    G
        shape D       000000
        shape G/D     020120
        shape A7sus4  x02100
        shape F#m7b5  x.9.10.9.x.x
        section Out & <home>
          anchors 1 = 0:00.200
          chords | D | G/D |
          strum  | d du d u | d d d d |
          sung   | Down to the . | quay _ . . |
          harp   | +4 -4 -3' . | -2'' . +4&+5&+6 _ |
        section Back
          chords | A7sus4 | F#m7b5 |
          pick
            D4  | . . 0 . | 2 . . . |
            A3  | . h2 . . | . . p0 . |
            F#3 | . . . . | . . . . |
            D3  | . 0 . . | . . . . |
            A2  | . . . . | . . . . |
            D2  | 0 . . 0 | 0 . . . |
        """);

    /// <summary>A bar of 2/4 between bars of 4/4, and a silence.</summary>
    public static Song TwoFour { get; } = Read("""
        title   The Short Bar
        meter   4/4
        tempo   240
        key     C major
        shape C x32010
        shape G 320003
        section Verse
          chords | C . . . |
          meter 2/4
          chords | G . |
          meter 4/4
          chords | C . . . | G _ _ _ |
        """);

    /// <summary>Songs that are hard to lay out: each is said in its title.</summary>
    public static IReadOnlyDictionary<string, Song> Hard { get; } = new[]
    {
        Read("""
            title   Chords Alone, under a Very Long Title about the Lantern Keepers of the Outer Banks and Everything That They Forgot to Bring Home Again Last Winter
            meter   3/4
            tempo   90
            key     C major
            shape C x32010
            shape F#m7b5/E x.9.10.9.x.x
            section A Section with Quite a Long Name That Someone Typed in Full and Never Shortened
              anchors 1 = 0:20.000
              chords | C | F#m7b5/E | Dbmaj7#11/Ab | C |
            section B
              chords | C | F#m7b5/E | C |
            """),
        Read("""
            title   Twelve Beats in a Bar
            meter   12/4
            tempo   120
            key     C major
            shape C x32010
            shape G7 320001
            section Verse
              chords | C . . . . . G7 . . . . . | C |
              strum  | d . u d . u d . u d . u | d d d d d d d d d d d d |
            """),
        Read("""
            title   Four Strings, Five Beats
            tuning  G4 C4 E4 A4
            meter   5/4
            tempo   120
            key     C major
            shape C 0003
            shape G7 0212
            section Verse
              chords | C . . G7 . | C | G7 | C |
              sung   | one two three four five | six . . . . | one two three four five | six . . . . |
              strum  | d du du du d | d d d d d | d du du du d | d d d d d |
            section Rest
              chords | N.C. | C |
            """),
        Read("""
            title   Twelve Strings and Every Part
            tuning  E2 E3 A2 A3 D3 D4 G3 G4 B3 B3 E4 E4
            capo    3
            tempo   90
            key     D major
            harp    G
            shape D xx0000222233
            section Verse
              anchors 1 = 0:02.000
              chords | D | D . Bm7 . | D | D |
              harp   | +4&+5&+6 -4 -3' . | -2'' . . . | -2 . . . | _ |
              strum  | d du du du | d du du du | d du du du | d du du du |
              sung   | The . stretch- ed . strings . of | home . . . . . . . | _ | _ |
            """),
        Read("""
            title   Nothing but Bars
            tempo   100
            key     C major
            section Verse
              chords | _ | _ | _ |
            """),
        FourBars, SampleSongs.LanternFerry, SampleSongs.SaltRoad,
    }.ToDictionary(s => s.Title.Length > 40 ? s.Title[..40] : s.Title);

    public static Song Read(string text)
    {
        var document = SongText.Parse(text, "test.hark");
        return document.Song ?? throw new InvalidOperationException(string.Join('\n', document.Diagnostics));
    }

    public static PieceStore StoreIn(TemporaryFolder folder) => new(folder.At("store"), TimeProvider.System);

    public static async Task<LessonSound> SoundAsync(string folder, double seconds, params double[] clicks) =>
        LessonSound.Of(await RecordingReader.InspectAsync(Sound(folder, seconds, clicks), TestContext.Current.CancellationToken));

    /// <summary>A quiet tone with a click at each of some times, as a WAV file.</summary>
    public static string Sound(string folder, double seconds, params double[] clicks)
    {
        const int Rate = 48000;
        var samples = new float[(int)(seconds * Rate)];
        for (var i = 0; i < samples.Length; i++)
            samples[i] = 0.02f * (float)Math.Sin(2 * Math.PI * 220 * i / Rate);
        foreach (var click in clicks)
            samples.AsSpan((int)(click * Rate), 96).Fill(0.8f);
        var path = Path.Combine(folder, "sound.wav");
        WaveFile.Write(path, new Signal(SampleRate.FromHertz(Rate), samples));
        return path;
    }
}
