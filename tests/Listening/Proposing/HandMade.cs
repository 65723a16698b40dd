using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing;

/// <summary>Hearings written by hand.</summary>
internal static class HandMade
{
    public static ImmutableArray<HeardBeat> Beats(IEnumerable<double> times, params int[] positions) =>
        [.. times.Select((t, i) => new HeardBeat(Seconds.FromSeconds(t), positions[i % positions.Length], 0.9))];

    public static IEnumerable<double> Every(double gap, int count, double from = 1) => Enumerable.Range(0, count).Select(i => from + gap * i);

    public static HeardChord Chord(string symbol, double start, double end, double confidence = 0.8) =>
        new(Seconds.FromSeconds(start), Seconds.FromSeconds(end), new(new Candidate<Chord>(ChordSymbol.Read(symbol), confidence)));

    public static HeardKey Key(string key, double start, double end, double confidence) =>
        new(Seconds.FromSeconds(start), Seconds.FromSeconds(end), new(new Candidate<Key>(Music.Theory.Key.Parse(key), confidence)));

    public static HeardSection Section(string label, double start, double end) => new(Seconds.FromSeconds(start), Seconds.FromSeconds(end), label, 0.7);

    /// <summary>Evidence of ten frames a second in which each stretch starts and sounds the pitches given, above a floor of noise.</summary>
    public static NotePosteriorgram Evidence(double length, params (double Start, double End, int[] Midi)[] stretches)
    {
        var sounding = new PosteriorMatrix((int)(length * 10) + 1, 60);
        var onset = new PosteriorMatrix(sounding.Frames, 60);
        foreach (var (start, _, pitches) in stretches)
        {
            foreach (var midi in pitches)
                onset[(int)Math.Ceiling(start * 10 - 1e-9), midi - 36] = 0.9f;
        }
        for (var f = 0; f < sounding.Frames; f++)
        {
            for (var p = 0; p < 60; p++)
                sounding[f, p] = stretches.Any(s => f >= s.Start * 10 && f < s.End * 10 && s.Midi.Contains(p + 36)) ? 0.8f : 0.02f;
        }
        return new(Seconds.FromSeconds(0.1), 36, sounding, onset);
    }

    public static Hearing Hearing(ImmutableArray<HeardBeat> beats, ImmutableArray<HeardChord> chords, string meter = "4/4", double tempo = 120,
        double length = 60) => new()
    {
        Recording = new("quay.wav", SampleRate.FromHertz(44100), 1, Seconds.FromSeconds(length), new string('b', 64), "WAV, 16-bit"),
        ReferencePitch = new(new Candidate<Hertz>(Hertz.FromHertz(441.239), 0.97)),
        Tempo = new(new Candidate<double>(tempo, 0.9)),
        Meter = new(new Candidate<Meter>(Music.Theory.Meter.Parse(meter), 0.85)),
        Beats = beats,
        Keys = [new(Seconds.FromSeconds(0), Seconds.FromSeconds(length), new(new Candidate<Key>(Music.Theory.Key.Parse("C major"), 0.6)))],
        Notes = [],
        Evidence = new() { Notes = Evidence(length) },
        Chords = chords,
        Sections = [],
        Tuning = new(new Candidate<HeardTuning>(new(Tuning.Standard, Capo.None, "standard"), 0.75)),
    };
}
