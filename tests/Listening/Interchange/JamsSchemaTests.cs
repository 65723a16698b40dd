namespace Harkbook.Listening.Tests.Interchange;

/// <summary>The schema that other tests trust, against the examples in the public documentation of JAMS ("Namespaces").</summary>
public class JamsSchemaTests
{
    [Theory]
    [InlineData("chord_harte", "\"N\"")]
    [InlineData("chord_harte", "\"Bb\"")]
    [InlineData("chord_harte", "\"E:(*5)\"")]
    [InlineData("chord_harte", "\"E#:min9/9\"")]
    [InlineData("chord_harte", "\"G#b:maj6\"")]
    [InlineData("chord_harte", "\"D/6\"")]
    [InlineData("chord_harte", "\"A:sus4\"")]
    [InlineData("key_mode", "\"C:minor\"")]
    [InlineData("key_mode", "\"N\"")]
    [InlineData("key_mode", "\"C#:dorian\"")]
    [InlineData("key_mode", "\"Eb\"")]
    [InlineData("key_mode", "\"A:lydian\"")]
    [InlineData("beat", "4")]
    [InlineData("beat", "null")]
    [InlineData("tempo", "180.0")]
    [InlineData("segment_open", "\"verse (alternate)\"")]
    [InlineData("note_midi", "43.02")]
    [InlineData("pitch_contour", """{ "index": 0, "frequency": 442.1, "voiced": true }""")]
    [InlineData("pitch_contour", """{ "index": 1, "frequency": 0, "voiced": false }""")]
    public void ThePublishedExamplesAreValid(string name, string value) => Assert.Empty(JamsSchema.Mistakes(File(name, value)));

    // The first three are in the documentation's list of what the wider namespace "chord" has and "chord_harte" has not.
    [Theory]
    [InlineData("chord_harte", "\"A:sus2\"")]
    [InlineData("chord_harte", "\"Bb:5\"")]
    [InlineData("chord_harte", "\"D:13/6\"")]
    [InlineData("chord_harte", "\"H:maj\"")]
    [InlineData("chord_harte", "\"C:maj/E\"")]
    [InlineData("key_mode", "\"C:blues\"")]
    [InlineData("key_mode", "\"c:minor\"")]
    [InlineData("key_mode", "\"C minor\"")]
    [InlineData("beat", "\"1\"")]
    [InlineData("tempo", "-1")]
    [InlineData("segment_open", "1")]
    [InlineData("note_midi", "\"A3\"")]
    [InlineData("pitch_contour", "442.1")]
    [InlineData("pitch_contour", """{ "index": 0, "frequency": -442.1, "voiced": true }""")]
    [InlineData("pitch_contour", """{ "index": 0.5, "frequency": 442.1, "voiced": true }""")]
    [InlineData("pitch_contour", """{ "index": 0, "frequency": 442.1, "voiced": 1 }""")]
    [InlineData("beats", "1")]
    public void WhatTheDocumentationRulesOutIsNot(string name, string value) => Assert.NotEmpty(JamsSchema.Mistakes(File(name, value)));

    [Theory]
    [InlineData("\"time\": -0.1, \"duration\": 0, \"value\": 1, \"confidence\": null")]
    [InlineData("\"time\": 0, \"duration\": -1, \"value\": 1, \"confidence\": null")]
    [InlineData("\"time\": 0, \"duration\": 0, \"value\": 1")]
    [InlineData("\"time\": null, \"duration\": 0, \"value\": 1, \"confidence\": null")]
    public void AnObservationHasItsFourParts(string observation) => Assert.NotEmpty(JamsSchema.Mistakes(Whole("beat", observation)));

    // The format's public file schema takes a dense series as one object of four lists; it says so of data, beside the list.
    [Fact]
    public void AContourMayBeFourListsAndABeatMayNot()
    {
        const string Columns = """{ "time": [0, 0.01], "duration": [0.01, 0.01], "value": """
            + """[{ "index": 0, "frequency": 440, "voiced": true }, { "index": 0, "frequency": 0, "voiced": false }], "confidence": [0.9, null] }""";

        Assert.Empty(JamsSchema.Mistakes(Around("pitch_contour", Columns)));
        Assert.NotEmpty(JamsSchema.Mistakes(Around("pitch_contour", Columns.Replace("440", "-440"))));
        Assert.NotEmpty(JamsSchema.Mistakes(Around("pitch_contour", Columns.Replace("\"confidence\": [0.9, null]", "\"confidence\": 0.9"))));
        Assert.NotEmpty(JamsSchema.Mistakes(Around("beat", """{ "time": [0], "duration": [0], "value": [1], "confidence": [null] }""")));
    }

    private static string File(string name, string value) => Whole(name, $"\"time\": 0.5, \"duration\": 1.0, \"value\": {value}, \"confidence\": 0.8");

    private static string Whole(string name, string observation) => Around(name, $"[{{ {observation} }}]");

    private static string Around(string name, string data) => $$"""
        {
          "annotations": [{ "namespace": "{{name}}", "data": {{data}}, "annotation_metadata": {}, "sandbox": {} }],
          "file_metadata": { "title": "", "artist": "", "release": "", "duration": 60.0, "identifiers": {}, "jams_version": "0.3.4" },
          "sandbox": {}
        }
        """;
}
