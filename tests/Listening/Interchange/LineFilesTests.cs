using Harkbook.Listening.Interchange;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Interchange;

/// <summary>
/// A second instrument there and back through files. The namespaces pitch_contour (values of index, frequency and voiced, one list a
/// column) and note_midi are those of the JAMS 0.3 schema; GuitarSet's files hold both in these forms.
/// </summary>
public class LineFilesTests
{
    private static readonly Hearing Heard = HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 16), 1, 2, 3, 4), []) with
    {
        Lines = new(0.02,
        [
            new()
            {
                Kind = new(new Candidate<LineKind>(LineKind.Harmonica, 0.8, "vibrato"), new Candidate<LineKind>(LineKind.Voice, 0.1)),
                Contour = new(Seconds.FromSeconds(0.01), [0, 300, 301.5f, 0, -1200], [0, 0.9f, 0.9f, 0, 0.6f]),
                Harp = new(new Candidate<HeardHarp>(new(PitchName.Parse("Bb"), 2), 0.7, "fits"), new Candidate<HeardHarp>(new(PitchName.Parse("F"), 3), 0.3)),
                Notes =
                [
                    new(72, Cents.FromCents(-12.5), Seconds.FromSeconds(1), Seconds.FromSeconds(1.5), 0.9,
                        new(new Candidate<HarpNote>(HarpNote.Parse("-2"), 0.6), new Candidate<HarpNote>(HarpNote.Parse("+3"), 0.4))),
                    new(50, default, Seconds.FromSeconds(2), Seconds.FromSeconds(2.5), 0.7),
                ],
            },
            new()
            {
                Kind = new(new Candidate<LineKind>(LineKind.Voice, 0.6)),
                Contour = new(Seconds.FromSeconds(0.01), [1200, 0], [0.5f, 0]),
                Notes = [new(57, default, Seconds.FromSeconds(1.2), Seconds.FromSeconds(1.7), 0.6)],
            },
        ]),
    };

    [Fact]
    public void AHearingComesBackFromJson()
    {
        var lines = HearingJson.Read(HearingJson.Write(Heard)).Lines;
        Assert.Equal((0.02, 2), (lines.Alone, lines.Found.Length));
        Assert.Equal(LineKind.Voice, lines.Found[1].Kind.Best);
        var (back, heard) = (lines.Found[0], Heard.Lines.Found[0]);
        Assert.Equal(heard.Contour, back.Contour);
        Assert.Equal(heard.Kind.Candidates.AsEnumerable(), back.Kind.Candidates);
        Assert.Equal(heard.Harp!.Candidates.AsEnumerable(), back.Harp!.Candidates);
        Assert.Equal(heard.Notes.Select(n => n with { Holes = null }), back.Notes.Select(n => n with { Holes = null }));
        Assert.Equal(heard.Notes[0].Holes!.Candidates.AsEnumerable(), back.Notes[0].Holes!.Candidates);
        Assert.Null(back.Notes[1].Holes);
    }

    [Fact]
    public void AJamsFileTellsTheLineApartFromTheGuitarsNotes()
    {
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllText(path, JamsWriter.Write(Heard));
            var read = JamsReader.Read(path);
            Assert.Empty(read.Notes);
            Assert.Equal([LineKind.Harmonica, LineKind.Voice], read.Lines!.Value.Select(l => l.Kind));
            var (line, sung) = (read.Lines.Value[0], read.Lines.Value[1]);
            Assert.Equal(PitchName.Parse("Bb"), line.HarpKey);
            Assert.Equal([HarpNote.Parse("-2"), null], line.Notes.Select(n => n.Hole));
            var offset = Cents.Between(Hertz.A440, Heard.ReferencePitch.Best).Value;
            Assert.Equal(72 + (offset - 12.5) / 100, line.Notes[0].Note.Midi, 1e-3);
            Assert.Equal([0, 0.01, 0.02, 0.03, 0.04], line.Melody.Select(p => p.Time));
            Assert.Equal([false, true, true, false, true], line.Melody.Select(p => p.Hertz is not null));
            // 300 cents above A4 of 441.239 Hz is 441.239·2^(1/4) = 524.73 Hz; 1200 below, half of it.
            Assert.Equal(524.73, line.Melody[1].Hertz!.Value, 0.01);
            Assert.Equal(220.62, line.Melody[4].Hertz!.Value, 0.01);
            // 1200 cents above is twice A4; the sung note starts at 1.2 s.
            Assert.Equal(882.48, sung.Melody[0].Hertz!.Value, 0.01);
            Assert.Equal((1.2, null), (Assert.Single(sung.Notes).Note.Onset, sung.HarpKey));
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void AnAnnotationComesBackFromJams()
    {
        var annotation = new Annotation
        {
            Duration = 3,
            Lines =
            [
                new(LineKind.Harmonica, [new(0, null), new(0.01, 440)], [new(new(1, 1.5, 67), HarpNote.Parse("-3''"))], PitchName.Parse("A")),
                new(LineKind.Voice, [new(0, 220), new(0.01, null)], [new(new(0.5, 1, 57), null)]),
            ],
        };
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllText(path, JamsWriter.Write(annotation, "Quay"));
            var read = JamsReader.Read(path);
            foreach (var (line, back) in annotation.Lines.Value.Zip(read.Lines!.Value))
            {
                Assert.Equal((line.Kind, line.HarpKey), (back.Kind, back.HarpKey));
                Assert.Equal(line.Melody.AsEnumerable(), back.Melody);
                Assert.Equal(line.Notes.AsEnumerable(), back.Notes);
            }
        }
        finally
        {
            File.Delete(path);
        }
    }

    /// <summary>Nothing said of lines, an empty list, and a contour that names nobody, which is GuitarSet's way only when there is one a string.</summary>
    [Theory]
    [InlineData("{}", 0, null)]
    [InlineData("{\"second_instruments\": []}", 0, 0)]
    [InlineData("{}", 1, 1)]
    [InlineData("{}", 6, null)]
    [InlineData("{\"second_instruments\": [\"voice\"]}", 6, 1)]
    public void WhatAFileSaysOfLines(string sandbox, int contours, int? lines)
    {
        const string Contour = """{"namespace": "pitch_contour", "data": [{"time": 0, "duration": 0, "value": """
            + """{"index": 0, "frequency": 220, "voiced": true}, "confidence": null}], "sandbox": {}}""";
        var path = Path.GetTempFileName();
        try
        {
            var annotations = string.Join(", ", Enumerable.Repeat(Contour, contours));
            File.WriteAllText(path, $$"""{"file_metadata": {"duration": 3}, "annotations": [{{annotations}}], "sandbox": {{sandbox}}}""");
            Assert.Equal(lines, JamsReader.Read(path).Lines?.Length);
        }
        finally
        {
            File.Delete(path);
        }
    }
}
