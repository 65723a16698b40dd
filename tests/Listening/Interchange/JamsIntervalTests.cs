using CsCheck;
using Harkbook.Listening.Interchange;

namespace Harkbook.Listening.Tests.Interchange;

/// <summary>Intervals as others read them, who add time and duration; the rules are those of <see cref="MirEvalRules"/>.</summary>
public class JamsIntervalTests
{
    // In binary floating point 0.1 + 0.2 is 0.30000000000000004 (IEEE 754); 1/3, 2/3 and 4/3 round apart from their differences.
    [Theory]
    [InlineData(0.0, 0.1, 0.3, 0.6)]
    [InlineData(0.0, 1.0 / 3, 2.0 / 3, 4.0 / 3)]
    [InlineData(0.0, 1.0000004, 2.0000008, 3.0000012)]
    [InlineData(0.0, 0.0000001, 0.0000002, 1.0)]
    public void WhatFollowsNeverStartsBeforeTheEnd(params double[] borders) => Assert.Empty(MirEvalRules.Breaches(Written(borders)));

    [Fact]
    public void NorDoesItAnywhereWithinAnHour() =>
        Gen.Double[0, 3600].Array[2, 60].Sample(borders => Assert.Empty(MirEvalRules.Breaches(Written([0, .. borders.Order()]))));

    [Fact]
    public void NorInAnyHearing() => AnyHearing.Whole.Sample(
        hearing => Assert.Empty(MirEvalRules.Breaches(JamsWriter.Write(hearing with { Beats = [.. hearing.Beats.OrderBy(b => b.Time.Value)] }))), iter: 100);

    // A person's spans may cross.
    [Fact]
    public void WhatCrossesIsCutWhereTheNextBegins()
    {
        var written = JamsWriter.Write(new() { Duration = 3, Chords = [new(0, 2, "C:maj"), new(1, 3, "G:maj"), new(1, 1, "D:maj")] }, "");

        Assert.Empty(MirEvalRules.Breaches(written));
    }

    [Fact]
    public void ANoteThatLastsNoTimeIsStillANote()
    {
        var written = JamsWriter.Write(new() { Duration = 3, Notes = [new(0.0000015, 0.0000015, 60), new(1, 0.5, 62)] }, "");

        Assert.Empty(MirEvalRules.Breaches(written));
        Assert.Equal(2, written.Split("\"value\"").Length - 1);
    }

    // One of each by hand, in the order of MirEvalRules.
    [Theory]
    [InlineData("chord_harte", "0, \"duration\": 1.000001", "1, \"duration\": 1")]
    [InlineData("chord_harte", "0.1, \"duration\": 0.2", "0.3, \"duration\": 1")]
    [InlineData("chord_harte", "0, \"duration\": 1", "1, \"duration\": 0")]
    [InlineData("segment_open", "0, \"duration\": 1.5", "1, \"duration\": 1")]
    [InlineData("note_midi", "0, \"duration\": 1", "2, \"duration\": 0")]
    [InlineData("beat", "2, \"duration\": 0", "1, \"duration\": 0")]
    [InlineData("beat", "2, \"duration\": 0", "30001, \"duration\": 0")]
    public void TheRulesRefuseWhatTheLibraryRefuses(string name, string first, string second)
    {
        var rows = string.Join(", ", new[] { first, second }.Select(time => $$"""{ "time": {{time}}, "value": 1 }"""));

        Assert.NotEmpty(MirEvalRules.Breaches($$"""{ "annotations": [{ "namespace": "{{name}}", "data": [{{rows}}] }] }"""));
    }

    private static string Written(double[] borders)
    {
        var spans = borders.Zip(borders.Skip(1)).ToArray();
        return JamsWriter.Write(
            new()
            {
                Duration = borders[^1],
                Chords = [.. spans.Select(s => new AnnotatedSpan(s.First, s.Second, "D:maj"))],
                Keys = [.. spans.Select(s => new AnnotatedSpan(s.First, s.Second, "D major"))],
                Sections = [.. spans.Select(s => new AnnotatedSpan(s.First, s.Second, "verse"))],
                Notes = [.. spans.Select(s => new ScoredNote(s.First, s.Second, 60))],
                Beats = [.. borders.Select(b => new AnnotatedBeat(b, null))],
            },
            "");
    }
}
