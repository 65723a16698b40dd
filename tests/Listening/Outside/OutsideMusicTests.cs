using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Outside;

/// <summary>
/// Listening from end to end, on music that nobody here wrote, against what its MIDI files say. The lines lie some four points below what was
/// reached (beats .996, tempo and key 1.000, chords .772 of the time), so that a loss shows.
/// </summary>
public class OutsideMusicTests(OutsideMusic music) : IClassFixture<OutsideMusic>
{
    [Fact]
    public void BeatsAreWhereTheTempoMapHasThem() =>
        AssertMean(0.95, "beat F", p => Measure(p, "beat F"));

    [Fact]
    public void TheTempoIsRightOrAnOctaveOff() =>
        AssertMean(0.95, "tempo", p => Measure(p, "tempo within 4% or an octave"));

    [Fact]
    public void KeysAreThoseThatTheNotesTell() =>
        AssertMean(0.95, "key, weighted", p => Measure(p, "key, weighted"));

    [Fact]
    public void ChordsAreThoseThatTheNotesSpell()
    {
        var judged = music.Pieces.Where(p => !p.Truth.Chords.IsEmpty).ToArray();
        var (right, time) = Sum(judged, p => ChordScores.RecallParts(p.Truth.Chords, Heard(p), ChordComparison.MajorMinor));
        var (constant, _) = Sum(judged, p => Always.Select(chord => ChordScores.RecallParts(p.Truth.Chords, [new(0, 60, chord)], ChordComparison.MajorMinor))
            .MaxBy(s => s.Right));
        var each = string.Join(", ", judged.Select(p => $"{p.Name} {Measure(p, "chord majmin"):0.000}"));
        Assert.True(right / time >= 0.73, $"Right for {right / time:0.000} of the time that is judged; {each}");
        Assert.True(right > constant,
            $"Naming one chord throughout each piece would be right for {constant / time:0.000} of the time, listening for {right / time:0.000}.");
    }

    [Fact]
    public void TheReferencePitchIsTheSynthesizers()
    {
        Assert.NotEmpty(music.Pieces);
        foreach (var piece in music.Pieces)
            Assert.InRange(Cents.Between(Hertz.A440, piece.Hearing.ReferencePitch.Best).Value, -5, 5);
    }

    private static IEnumerable<string> Always =>
        Enumerable.Range(0, 12).Select(p => PitchName.FromPitchClass(p)).SelectMany(root => new[] { $"{root}:maj", $"{root}:min" });

    private static AnnotatedSpan[] Heard(HeardPiece piece) =>
        [.. piece.Hearing.Chords.Select(c => new AnnotatedSpan(c.Start.Value, c.End.Value, HarteLabel.Write(c.Chord.Best)))];

    private static double? Measure(HeardPiece piece, string name) =>
        Evaluator.Score(piece.Hearing, piece.Truth).FirstOrDefault(m => m.Measure == name)?.Value;

    private static (double, double) Sum(HeardPiece[] pieces, Func<HeardPiece, (double Right, double Judged)> parts) =>
        pieces.Select(parts).Aggregate((Right: 0.0, Judged: 0.0), (sum, p) => (sum.Right + p.Right, sum.Judged + p.Judged));

    private void AssertMean(double least, string what, Func<HeardPiece, double?> measure)
    {
        var each = music.Pieces.Select(p => (p.Name, Value: measure(p))).Where(p => p.Value is not null).ToArray();
        var mean = each.Average(p => p.Value!.Value);
        Assert.True(mean >= least,
            $"{what}: {mean:0.000} on average, at least {least} is expected; {string.Join(", ", each.Select(p => $"{p.Name} {p.Value:0.000}"))}");
    }
}
