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
    [InlineData("beats", "1")]
    public void WhatTheDocumentationRulesOutIsNot(string name, string value) => Assert.NotEmpty(JamsSchema.Mistakes(File(name, value)));

    [Theory]
    [InlineData("\"time\": -0.1, \"duration\": 0, \"value\": 1, \"confidence\": null")]
    [InlineData("\"time\": 0, \"duration\": -1, \"value\": 1, \"confidence\": null")]
    [InlineData("\"time\": 0, \"duration\": 0, \"value\": 1")]
    [InlineData("\"time\": null, \"duration\": 0, \"value\": 1, \"confidence\": null")]
    public void AnObservationHasItsFourParts(string observation) => Assert.NotEmpty(JamsSchema.Mistakes(Whole("beat", observation)));

    private static string File(string name, string value) => Whole(name, $"\"time\": 0.5, \"duration\": 1.0, \"value\": {value}, \"confidence\": 0.8");

    private static string Whole(string name, string observation) => $$"""
        {
          "annotations": [{ "namespace": "{{name}}", "data": [{ {{observation}} }], "annotation_metadata": {}, "sandbox": {} }],
          "file_metadata": { "title": "", "artist": "", "release": "", "duration": 60.0, "identifiers": {}, "jams_version": "0.3.4" },
          "sandbox": {}
        }
        """;
}
