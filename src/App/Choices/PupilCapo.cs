using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.Jobs.Files;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.App.Choices;

/// <summary>A lesson for a pupil whose capo is elsewhere than the song's.</summary>
/// <param name="SameShapes">Whether the shapes stay and the sound moves; else the sound stays and the shapes are searched anew.</param>
internal sealed record PupilCapo(Capo Capo, bool SameShapes)
{
    /// <summary>Null where no capo is given.</summary>
    public static PupilCapo? Read(string? capo, bool sameShapes)
    {
        if (capo is null)
            return sameShapes ? throw new UsageException("--same-shapes says what stays under another capo; give the pupil's with --capo.") : null;
        if (capo == "none")
            return new(Capo.None, sameShapes);
        return int.TryParse(capo, out var fret) && fret is >= 0 and <= 12
            ? new(Capo.At(fret), sameShapes)
            : throw new UsageException($"--capo {capo}: give none or a fret from 1 to 12.");
    }

    /// <summary>Where the lesson goes unless a folder is given: beside the one for the song's own capo.</summary>
    public string Folder => $"lesson-{(Capo.Fret == 0 ? "no-capo" : $"capo-{Capo.Fret}")}{(SameShapes ? "-same-shapes" : "")}";

    /// <summary>Semitones by which the recording moves.</summary>
    public int Shift(Song song) => SameShapes ? Capo.Fret - song.Capo.Value.Fret : 0;

    /// <summary>What to know of the lesson; null where a person made its shapes.</summary>
    public string? Caution => SameShapes ? null
        : $"The shapes for {(Capo.Fret == 0 ? "no capo" : $"capo {Capo.Fret}")} were found by the program, and no person has tried them: look them over before "
            + "you hand them out.";

    public SongFolder Of(SongFolder opened)
    {
        if (opened.Song.Capo.Value.IsPartial)
            throw new UserException($"{opened.SongPath}: the song's capo stops only some strings, so its shapes belong to it; --capo makes lessons of songs "
                + "without a capo or with one over all strings.");
        if (opened.Song.Capo.Value.Fret == Capo.Fret)
            throw new UserException($"{opened.SongPath}: the song has {(Capo.Fret == 0 ? "no capo" : $"its capo on fret {Capo.Fret}")} itself, so there is "
                + "nothing to change; publish it without --capo.");
        if (SameShapes)
            return opened with { Song = CapoChange.SameShapes(opened.Song, Capo) };
        return CapoChange.TrySameSound(opened.Song, Capo, out var moved, out var problem)
            ? opened with { Song = moved }
            : throw new UserException($"{opened.SongPath}: {problem}. Give another capo, or --same-shapes, which moves the sound instead.");
    }
}
