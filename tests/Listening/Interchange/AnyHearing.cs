using CsCheck;
using Harkbook.Audio.Recordings;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Tests.Theory;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Interchange;

/// <summary>Made-up Hearings for properties: every kind of value that an estimate can hold, in no musical order.</summary>
internal static class AnyHearing
{
    private static readonly Gen<double> share = Gen.Double[0, 1];
    private static readonly Gen<Seconds> time = Gen.Double[0, 10_800].Select(Seconds.FromSeconds);
    private static readonly Gen<string?> words = Gen.OneOf(Gen.Const((string?)null), Gen.String.Select(s => (string?)Printable(s)));
    private static readonly Gen<Key> key = Gen.Select(Gen.Int[-8, 8].Select(PitchName.FromFifths), Gen.Int[0, Mode.All.Length - 1].Select(i => Mode.All[i]),
        (tonic, mode) => new Key(tonic, mode));
    private static readonly Gen<Meter> meter = Gen.Select(Gen.Int[1, 32], Gen.Int[0, 4].Select(n => 1 << n), Meter.Of);

    private static readonly Gen<Tuning> tuning =
        Gen.Select(Gen.Int[-7, 7].Select(PitchName.FromFifths), Gen.Int[0, 6], Pitch.Of).List[1, 12].Select(Tuning.Of);

    private static readonly Gen<NotePosteriorgram> evidence = Gen.Select(Gen.Int[0, 40], Gen.Int[1, 12], Gen.Int[1, 1000], (frames, pitches, seed) =>
        new NotePosteriorgram(Seconds.FromSeconds(256 / 22_050.0), 40, Matrix(frames, pitches, seed), Matrix(frames, pitches, seed + 1)));

    public static Gen<Capo> Capo { get; } = Gen.Select(Gen.Int[0, 12], Gen.Int[0, 11].HashSet[0, 6],
        (fret, strings) => Music.Instruments.Strings.Capo.At(fret, [.. strings]));

    public static Gen<Hearing> Whole { get; } = Gen.Select(
        Gen.Select(Recording(), Distribution(Gen.Double[380, 500].Select(Hertz.FromHertz)), Distribution(Gen.Double[20, 400]), Distribution(meter)),
        Gen.Select(Beat().Array[0, 9], Span(Distribution(key), (s, e, k) => new HeardKey(s, e, k)).Array[1, 3], Note().Array[0, 9], evidence),
        Gen.Select(
            Span(Distribution(AnyChord.Of(13)), (s, e, c) => new HeardChord(s, e, c)).Array[0, 5],
            Span(Gen.Select(words, share), (s, e, w) => new HeardSection(s, e, w.Item1 ?? "A", w.Item2)).Array[0, 4],
            Distribution(Gen.Select(tuning, Capo, words, (t, c, n) => new HeardTuning(t, c, n)))),
        (facts, line, rest) => new Hearing
        {
            Recording = facts.Item1,
            ReferencePitch = facts.Item2,
            Tempo = facts.Item3,
            Meter = facts.Item4,
            Beats = [.. line.Item1],
            Keys = [.. line.Item2],
            Notes = [.. line.Item3],
            Evidence = new() { Notes = line.Item4 },
            Chords = [.. rest.Item1],
            Sections = [.. rest.Item2],
            Tuning = rest.Item3,
        });

    private static Gen<Distribution<T>> Distribution<T>(Gen<T> value) =>
        Gen.Select(value, share, words, (v, confidence, why) => new Candidate<T>(v, confidence, why)).Array[1, 4].Select(Ruled);

    /// <summary>Candidates that rule each other out share what there is.</summary>
    private static Distribution<T> Ruled<T>(Candidate<T>[] drawn)
    {
        var sum = Math.Max(1, drawn.Sum(c => c.Confidence));
        return new([.. drawn.Select(c => c with { Confidence = c.Confidence / sum })]);
    }

    private static Gen<T> Span<TValue, T>(Gen<TValue> value, Func<Seconds, Seconds, TValue, T> make) =>
        Gen.Select(time, Gen.Double[0.01, 60], value, (start, length, v) => make(start, start + Seconds.FromSeconds(length), v));

    private static Gen<Recording> Recording() => Gen.Select(words, Gen.Int[4000, 768_000], Gen.Int[1, 64], time, (name, rate, channels, length) =>
        new Recording(name + ".wav", SampleRate.FromHertz(rate), channels, length, new string('a', 64), "WAV, 16-bit"));

    private static Gen<HeardBeat> Beat() => Gen.Select(time, Gen.Int[1, 12], share, (t, position, confidence) => new HeardBeat(t, position, confidence));

    private static Gen<HeardNote> Note() => Span(
        Gen.Select(Gen.Int[0, 127], share, share, Gen.Select(Gen.Bool, Gen.Int[0, 11], Gen.Int[0, 24], share)),
        (s, e, n) => new HeardNote(n.Item1, s, e, n.Item2, n.Item3, n.Item4.Item1 ? new HeardPlace(n.Item4.Item2, n.Item4.Item3, n.Item4.Item4) : null));

    private static PosteriorMatrix Matrix(int frames, int pitches, int seed)
    {
        var random = new Random(seed);
        var matrix = new float[frames, pitches];
        for (var i = 0; i < matrix.Length; i++)
            matrix[i / pitches, i % pitches] = random.NextSingle();
        return PosteriorMatrix.Of(matrix);
    }

    /// <summary>Half a surrogate pair is no text, and JSON can't carry it.</summary>
    private static string Printable(string text) => string.Concat(text.Where(c => !char.IsSurrogate(c)));
}
