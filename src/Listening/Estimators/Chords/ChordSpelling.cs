using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>
/// Names a chord state in a key: roots outside the scale as flats of the key (bVI and bVII, as common practice has it), but those of
/// diminished chords as sharps, because they lead upward.
/// </summary>
internal static class ChordSpelling
{
    public static Chord Spelled(ChordState state, Key? key)
    {
        if (state.Quality is null)
            return Chord.None;
        var leading = state.Quality.Quality.PitchClasses.Contains(6);
        var centre = (key?.Signature ?? 0) + (leading ? 3 : 0);
        var root = PitchName.FromPitchClass(state.Root, centre);
        return Chord.Of(root, state.Quality.Quality, root + state.Bass);
    }
}
