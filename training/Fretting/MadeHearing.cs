using System.Collections.Immutable;
using Harkbook.Audio.Recordings;
using Harkbook.Listening;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>A hearing in which all but the notes is as the maker of the piece meant it.</summary>
internal static class MadeHearing
{
    public static Hearing Of(MadePiece piece, ImmutableArray<HeardNote> notes, HeardTuning guitar) => new()
    {
        Recording = new("made.wav", SampleRate.FromHertz(44100), 1, Seconds.FromSeconds(piece.Length), new string('a', 64), "WAV"),
        ReferencePitch = new(new Candidate<Hertz>(Hertz.A440, 1)),
        Tempo = new(new Candidate<double>(120, 1)),
        Meter = new(new Candidate<Meter>(Meter.Parse("4/4"), 1)),
        Beats = [.. Enumerable.Range(0, (int)(piece.Length * 4)).Select(i => new HeardBeat(Seconds.FromSeconds(0.25 * i), i % 4 + 1, 1))],
        Keys = [new(Seconds.FromSeconds(0), Seconds.FromSeconds(piece.Length), new(new Candidate<Key>(piece.Key, 1)))],
        Notes = notes,
        Chords = [.. piece.Chords.Select(c => new HeardChord(Seconds.FromSeconds(c.Start), Seconds.FromSeconds(c.End), new(new Candidate<Chord>(c.Chord, 1))))],
        Sections = [],
        Tuning = new(new Candidate<HeardTuning>(guitar, 1)),
    };
}
