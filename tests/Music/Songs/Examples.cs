namespace Harkbook.Music.Tests.Songs;

/// <summary>A song of an invented place, as a player would type it.</summary>
internal static class Examples
{
    public const string Ferry = """
        ; taken down from the quay-side recording
        title      The Ferry at Hollin Reach
        player     Wren Adair
        recording  ferry.wav   length 1:23.412   sha256 3f2a3f2a3f2a3f2a3f2a3f2a3f2a3f2a3f2a3f2a3f2a3f2a3f2a3f2a3f2a3f2a
        pitch      A4 = 442.3 Hz                 ~heard 97%
        tuning     D2 A2 D3 F#3 A3 D4            ~heard 88%
        capo       none                          ~decided
        meter      4/4
        tempo      96
        key        D major                       ~corrected 2026-11-25 Wren: the C is natural, D mixolydian after all
        harp       D richter

        shape      D        000000   fingers 000000
        shape      G/D@low  020120

        section    Verse 1
        anchors    1 = 0:02.315   3 = 0:12.402
        chords     | D . . .     | G,D . A .   | Bm7 . A? .  |   ~heard 84%
        strum      | d . du .    | d . . .     | d,.,u . . x |
        sung       | . . The,. fer- | ry _ . . | x . . .     |
        harp       | +4 . -4&-5 . | . . _ .    | +4 . -3' +6o |
        pick
          D4       | 0 . 2 .     | . . . .     | h2 p0 s4 .  |
          A3       | . 1 . .     | . . . .     | . . . _     | ; the thumb rests

        section    Verse 2 like Verse 1
        chords from 3 | A . . . |
        sung from 1   | . . All,. a- | board _ . . |
        """;
}
