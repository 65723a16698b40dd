using Harkbook.Listening.Interchange;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Interchange;

/// <summary>
/// A second instrument there and back through files. The namespaces pitch_contour (values of index, frequency and voiced, one list a
/// column) and note_midi are those of the JAMS 0.3 schema; GuitarSet's files hold both in these forms.
/// </summary>
public class SecondInstrumentFilesTests
{
    private static readonly Hearing Heard = HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 16), 1, 2, 3, 4), []) with
    {
        SecondInstrument = new()
        {
            Kind = new(new Candidate<SecondInstrumentKind>(SecondInstrumentKind.Harmonica, 0.8, "vibrato"), new Candidate<SecondInstrumentKind>(SecondInstrumentKind.None, 0.2)),
            Contour = new(Seconds.FromSeconds(0.01), [0, 300, 301.5f, 0, -1200], [0, 0.9f, 0.9f, 0, 0.6f]),
            Harp = new(new Candidate<HeardHarp>(new(PitchName.Parse("Bb"), 2), 0.7, "fits"), new Candidate<HeardHarp>(new(PitchName.Parse("F"), 3), 0.3)),
            Notes =
            [
                new(72, Cents.FromCents(-12.5), Seconds.FromSeconds(1), Seconds.FromSeconds(1.5), 0.9, new(new Candidate<HarpNote>(HarpNote.Parse("-2"), 0.6), new Candidate<HarpNote>(HarpNote.Parse("+3"), 0.4))),
                new(50, default, Seconds.FromSeconds(2), Seconds.FromSeconds(2.5), 0.7),
            ],
        },
    };

    [Fact]
    public void AHearingComesBackFromJson()
    {
        var back = HearingJson.Read(HearingJson.Write(Heard)).SecondInstrument;
        var heard = Heard.SecondInstrument;
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
            Assert.Equal((SecondInstrumentKind.Harmonica, PitchName.Parse("Bb")), (read.SecondInstrument, read.HarpKey));
            Assert.Equal([HarpNote.Parse("-2"), null], read.LineNotes.Select(n => n.Hole));
            var offset = Cents.Between(Hertz.A440, Heard.ReferencePitch.Best).Value;
            Assert.Equal(72 + (offset - 12.5) / 100, read.LineNotes[0].Note.Midi, 1e-3);
            Assert.Equal([0, 0.01, 0.02, 0.03, 0.04], read.Melody.Select(p => p.Time));
            Assert.Equal([false, true, true, false, true], read.Melody.Select(p => p.Hertz is not null));
            // 300 cents above A4 of 441.239 Hz is 441.239·2^(1/4) = 524.73 Hz; 1200 below, half of it.
            Assert.Equal(524.73, read.Melody[1].Hertz!.Value, 0.01);
            Assert.Equal(220.62, read.Melody[4].Hertz!.Value, 0.01);
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
            SecondInstrument = SecondInstrumentKind.None,
            Melody = [new(0, null), new(0.01, 440)],
            LineNotes = [new(new(1, 1.5, 67), HarpNote.Parse("-3''"))],
            HarpKey = PitchName.Parse("A"),
        };
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllText(path, JamsWriter.Write(annotation, "Quay"));
            var read = JamsReader.Read(path);
            Assert.Equal((annotation.SecondInstrument, annotation.HarpKey), (read.SecondInstrument, read.HarpKey));
            Assert.Equal(annotation.Melody.AsEnumerable(), read.Melody);
            Assert.Equal(annotation.LineNotes.AsEnumerable(), read.LineNotes);
        }
        finally
        {
            File.Delete(path);
        }
    }
}
