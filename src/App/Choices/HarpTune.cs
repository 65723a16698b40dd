using Harkbook.Jobs.Files;
using System.Collections.Immutable;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.Music.Analysis.SecondInstruments;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.App.Choices;

/// <summary>What harmonicas are to be ranked for: notes as typed, or a song's harmonica part.</summary>
/// <param name="Notes">What sounds at once, in order.</param>
/// <param name="Own">The song's own harmonica; null for typed notes.</param>
/// <param name="Breath">How the song's part breathes; null for typed notes.</param>
internal sealed record HarpTune(ImmutableArray<ImmutableArray<Pitch>> Notes, Key? Key, Harmonica? Own, BreathPlan? Breath)
{
    public static HarpTune Read(string[] words, string? section, Key? key)
    {
        if (words is [var path] && (File.Exists(path) || Directory.Exists(path)))
            return OfSong(SongOpening.Open(path), section, key);
        return section is null
            ? new([.. words.Select(w => ImmutableArray.Create(ReadPitch(w)))], key, null, null)
            : throw new UsageException("--section: only a song has sections. Give a song file or the folder that holds it, or leave --section out.");
    }

    private static HarpTune OfSong(SongFolder opened, string? section, Key? key)
    {
        var song = opened.Song;
        if (song.Harp is null)
            throw new UserException($"{opened.SongPath}: no line says which harmonica plays, so its notes have no pitch. Add one, as in 'harp  D richter'.");
        var numbers = (section is null ? song.Bars : SectionChoice.Called(section.Trim(), song.Sections).SelectMany(s => s.Bars))
            .Select(b => b.Number).ToHashSet();
        bool Meant(Bar bar) => numbers.Contains(bar.Number);
        var played = HarpPlayed.In(song, Meant)
            ?? throw new UserException($"{opened.SongPath}: the harmonica plays nothing{(section is null ? "" : $" in {section}")}. Give a section in which it "
                + "does, or notes, as in harkbook harps D5 E5 F#5.");
        return new([.. played.Tune], key ?? song.Key.Value, played.Harp, BreathPlan.Of(song, Meant));
    }

    private static Pitch ReadPitch(string text) =>
        Pitch.TryParse(text, out var pitch)
            ? pitch
            : throw new UsageException($"'{text}' is not a pitch; write a note name and an octave, as in F#5 (C4 is middle C).");
}
