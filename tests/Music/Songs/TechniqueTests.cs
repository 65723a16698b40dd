using CsCheck;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

/// <summary>What a cell of a pick block says about the hands. The signs are those of hand-written tab (common practice).</summary>
public class TechniqueTests
{
    private static readonly PickedNote Five = new(0, 5);

    public static TheoryData<string, PickedNote> Cells => new()
    {
        { "5", Five },
        { "h5", Five with { Attack = Attack.HammeredOn } },
        { "p5", Five with { Attack = Attack.PulledOff } },
        { "s5", Five with { Attack = Attack.Slid } },
        { "t5", Five with { Attack = Attack.Tapped } },
        { "/5", Five with { Attack = Attack.SlidFromBelow } },
        { "\\5", Five with { Attack = Attack.SlidFromAbove } },
        { "5/", Five with { SlideOff = SlideOff.Up } },
        { "5\\", Five with { SlideOff = SlideOff.Down } },
        { "x", new(0, 0) { IsMuted = true } },
        { "(5)", Five with { IsGhost = true } },
        { "<12>", new(0, 0) { TouchedAt = 12 } },
        { "5<17>", Five with { TouchedAt = 17 } },
        { "5b7", Five with { Bend = new(Cents.FromCents(200)) } },
        { "5b5+1/2", Five with { Bend = new(Cents.FromCents(50)) } },
        { "5b8r5", Five with { Bend = new(Cents.FromCents(300), IsReleased: true) } },
        { "5pb6", Five with { Bend = new(Cents.FromCents(100), IsBefore: true) } },
        { "5~", Five with { HasVibrato = true } },
        { "5ring", Five with { LetsRing = true } },
        { "5:p", Five with { Finger = PickingFinger.Thumb } },
        { "5:i", Five with { Finger = PickingFinger.Index } },
        { "5:m", Five with { Finger = PickingFinger.Middle } },
        { "5:a", Five with { Finger = PickingFinger.Ring } },
        { "5:c", Five with { Finger = PickingFinger.Little } },
        { "3h5", Five with { Attack = Attack.HammeredOn, Graces = GraceNotes.Of(new GraceNote(3)) } },
        { "3g5", Five with { Graces = GraceNotes.Of(new GraceNote(3)) } },
        { "h7p5", Five with { Attack = Attack.PulledOff, Graces = GraceNotes.Of(new GraceNote(7, Attack.HammeredOn)) } },
        { "3s5b7r5~ring:a", Five with { Attack = Attack.Slid, Graces = GraceNotes.Of(new GraceNote(3)), Bend = new(Cents.FromCents(200), IsReleased: true),
            HasVibrato = true, LetsRing = true, Finger = PickingFinger.Ring } },
    };

    [Theory]
    [MemberData(nameof(Cells))]
    public void ACellIsReadAsPlayersWriteIt(string cell, PickedNote expected)
    {
        Assert.Equal(expected, Read(cell).Song!.Bars.First().Picked.Single().Value);
        Assert.Contains($"| {cell} ", SongText.Write(Read(cell).Song!));
    }

    [Theory]
    [InlineData("5b7r", "5b7r5")]
    [InlineData("5:e", "5:c")]
    [InlineData("0<12>", "<12>")]
    public void OtherWaysToWriteItAreUnderstood(string cell, string asWritten) => Assert.Contains($"| {asWritten} ", SongText.Write(Read(cell).Song!));

    [Fact]
    public void EveryTechniqueReadsBackEqual() => PickedGen.Notes.Sample(
        note =>
        {
            var song = Read("5").Song!;
            var claim = song.Bars.First().Picked[0] with { Value = note };
            var changed = song with { Sections = [song.Sections[0] with { Bars = [song.Bars.First() with { Picked = [claim] }] }] };
            return changed == SongText.Parse(SongText.Write(changed), "t").Song;
        }, iter: 3000);

    [Theory]
    [InlineData("5b", "b9 bent to sound as fret 9")]
    [InlineData("q5", "h hammered on, p pulled off, s slid to")]
    [InlineData("5b4", "5b7 a whole one")]
    [InlineData("5b5", "5b5+1/2 a quarter tone")]
    [InlineData("5b1", "5b6 is a half step")]
    [InlineData("5b11", "at most 5 higher")]
    [InlineData("5b7r6", "r5")]
    [InlineData("<6>", "12, 7, 5")]
    [InlineData("x5", "x muted")]
    [InlineData("37", "0 to 36")]
    [InlineData("1h2h3h4h5h6", "4 at most")]
    public void ACellThatSaysNothingPlayableSaysWhatWould(string cell, string words)
    {
        var found = Assert.Single(Read(cell).Diagnostics, d => d.Severity == Severity.Error);
        Assert.Equal(DiagnosticCode.BadPickedNote, found.Code);
        Assert.Contains(words, found.Message);
    }

    /// <summary>Vibrato's sign stands at its note; behind a space it starts a standing as anywhere.</summary>
    [Fact]
    public void AWavyLineIsNoStanding()
    {
        var note = SongText.Parse("title T\ntuning A3\nsection A\npick\nA3 | 5~ 7~?40 | ~heard 30%", "t").Song!.Bars.First().Picked;
        Assert.All(note, n => Assert.True(n.Value.HasVibrato));
        Assert.Equal([Standing.Heard(0.3), Standing.Heard(0.4)], note.Select(n => n.Standing));
    }

    /// <summary>
    /// The partials of the natural harmonics that methods teach (common practice): 12 the octave, 7 and 19 the octave and a fifth,
    /// 5 and 24 two octaves, 4, 9 and 16 two octaves and a third, 3 two octaves and a fifth.
    /// </summary>
    [Theory]
    [InlineData(12, 2)]
    [InlineData(7, 3)]
    [InlineData(19, 3)]
    [InlineData(5, 4)]
    [InlineData(24, 4)]
    [InlineData(4, 5)]
    [InlineData(9, 5)]
    [InlineData(16, 5)]
    [InlineData(3, 6)]
    [InlineData(1, null)]
    [InlineData(6, null)]
    [InlineData(0, null)]
    public void HarmonicsLieWhereMethodsTeachThem(int fret, int? partial) => Assert.Equal(partial, HarmonicNode.PartialAt(fret));

    // A3 is MIDI 57. Harmonics: 57 + 12·log2(k), so 69, 76.02, 81, 84.86; a bend's top; a quarter tone counts as the fret below it.
    [Theory]
    [InlineData("5", 62)]
    [InlineData("<12>", 69)]
    [InlineData("<7>", 76)]
    [InlineData("<5>", 81)]
    [InlineData("<4>", 85)]
    [InlineData("2<14>", 71)]
    [InlineData("5b7", 64)]
    [InlineData("5b5+1/2", 62)]
    [InlineData("x", null)]
    public void APitchIsTheOneMeant(string cell, int? midi) =>
        Assert.Equal(midi, Read(cell).Song!.Bars.First().Picked[0].Value.MidiOn(new(Tuning.Parse("A3"))));

    // The open string sounds two semitones lower where a capo at fret 2 is taken off, so everything lies two frets higher.
    [Theory]
    [InlineData("3h5b7", "5h7b9")]
    [InlineData("<12>", "2<14>")]
    [InlineData("x", "x")]
    public void UnderAnotherCapoAllOfANoteMovesAlong(string cell, string moved)
    {
        var song = SongText.Parse($"title T\ntuning A3\ncapo 2\nsection A\npick\nA3 | {cell} |", "t").Song!;
        Assert.True(CapoChange.TrySameSound(song, Capo.None, out var open, out var problem), problem);
        Assert.Equal(Read(moved).Song!.Bars.First().Picked.Select(p => p.Value), open.Bars.First().Picked.Select(p => p.Value));
    }

    private static SongDocument Read(string cell) => SongText.Parse($"title T\ntuning A3\nsection A\npick\nA3 | {cell} |", "t");
}
