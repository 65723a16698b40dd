using System.Collections.Immutable;
using CsCheck;
using Harkbook.Music.Analysis.Explaining;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Publishing.Engraving.Tabs;
using Harkbook.Publishing.Lessons;
using Harkbook.Units;

namespace Harkbook.Publishing.Tests.Engraving;

public class BarSheetTests
{
    private static readonly Gen<Standing> Standings = Gen.OneOf(Standing.Decided, Standing.Heard(0.42), Standing.Heard(null));

    private static readonly Gen<Beats[]> Starts = Gen.Int[0, 15].Array[0, 7]
        .Select(places => places.Distinct().Order().Select(p => Beats.Fraction(p, 4)).ToArray());

    private static Gen<ImmutableArray<Claim<T>>> Claims<T>(Gen<T> values) =>
        from starts in Starts
        from chosen in values.Array[starts.Length]
        from standing in Standings
        select starts.Select((s, i) => new Claim<T>(s, (i + 1 < starts.Length ? starts[i + 1] : Beats.Whole(4)) - s, chosen[i], standing)).ToImmutableArray();

    /// <summary>Notes with every technique, alone and together.</summary>
    private static Gen<PickedNote> Picked(int strings) =>
        from place in Gen.Select(Gen.Int[0, strings - 1], Gen.Int[0, 24], Gen.Enum<Attack>())
        from graces in Gen.Select(Gen.Int[0, 24], Gen.OneOf(Attack.Picked, Attack.HammeredOn, Attack.Slid), (f, a) => new GraceNote(f, a)).Array[0, 2]
        from kind in Gen.Int[0, 7]
        from bend in Gen.Select(Gen.Int[1, 10], Gen.Bool, Gen.Bool, (halves, before, back) => new Bend(Cents.FromCents(50 * halves), before, back))
        from marks in Gen.Select(Gen.Int[0, 3], Gen.Int[0, 3], Gen.Enum<SlideOff>(), Gen.Enum<PickingFinger>())
        select new PickedNote(place.Item1, kind == 0 ? 0 : place.Item2, place.Item3)
        {
            IsMuted = kind == 0, IsGhost = kind == 1, TouchedAt = kind == 2 ? place.Item2 + 12 : null, Bend = kind == 3 ? bend : default,
            Graces = kind == 4 ? GraceNotes.Of(graces) : default, HasVibrato = marks.Item1 == 0, LetsRing = marks.Item2 == 0,
            SlideOff = kind == 5 ? marks.Item3 : SlideOff.None, Finger = marks.Item4,
        };

    private static Gen<Bar> Bars(int strings) =>
        from chords in Claims(Gen.OneOf("D", "F#m7b5", "Ebmaj7/G", "A7sus4", "Bm@low"))
        from sung in Claims(Gen.OneOf("a", "straight-", "x", "strengths,", "Öre-", "und"))
        from harp in Claims(Gen.Select(Gen.Int[1, 10], Gen.Enum<Breath>(), Gen.Int[-3, 1], (h, b, bend) => new HarpNote(h, b, bend, bend == 0 && h % 3 == 0)))
        from picked in Claims(Picked(strings))
        from strums in Claims(Gen.Enum<Stroke>())
        select new Bar
        {
            Number = 1, Meter = Meter.CommonTime, Sung = sung, Harp = harp, Picked = picked, Strums = strums,
            Chords = [.. chords.Select(c => new Claim<ChordUse>(c.Start, c.Length, new(Chord.None, c.Value, null), c.Standing))],
        };

    private static readonly Gen<Song> Songs =
        from strings in Gen.Int[1, 12]
        from pitches in Gen.Int[36, 72].Array[strings]
        from bars in Bars(strings).Array[1, 24]
        from title in Gen.String[Gen.Char["abcdeЖλőÅ ß—&<"], 1, 120]
        from shapes in Gen.Int[0, 12].Array[strings].Array[0, 9]
        from a4 in Gen.Double[415, 466]
        select new Song
        {
            Title = title,
            ReferencePitch = new(Hertz.FromHertz(a4), Standing.Heard(0.5)),
            Tuning = new(Tuning.Of(pitches.Select(p => Pitch.FromMidi(p))), Standing.Decided),
            Capo = new(Capo.At(3, strings - 1), Standing.Decided),
            Meter = new(Meter.CommonTime, Standing.Decided),
            Tempo = new(96, Standing.Decided),
            Key = new(Key.Parse("Bb dorian"), Standing.Decided),
            Shapes = [.. shapes.Select((s, i) => new NamedShape($"C#m7@{i}", Shape.Of([.. s.Select(f => f == 12 ? (int?)null : f)]), Standing.Decided))],
            Sections = [new(title, [], [.. bars.Select((b, i) => b with { Number = i + 1 })])],
        };

    [Theory]
    [InlineData("0000KhQ8ZQk4")]
    [InlineData("8UFWfk3S3RU4")] // a bend's way back lay over its own two digits
    [InlineData("cNSpZky2i681")]
    public void NothingIsCutOrCoveredOnAnySheet(string seed) => Songs.Sample(
        song => Assert.All(BarSheet.Engrave(song, PaperSize.A4), Layout.IsSound), iter: 20, seed: seed);

    public static TheoryData<string, PaperSize> Samples => new()
    {
        { nameof(SampleSongs.LanternFerry), PaperSize.A4 }, { nameof(SampleSongs.LanternFerry), PaperSize.Letter },
        { nameof(SampleSongs.SaltRoad), PaperSize.A4 }, { nameof(SampleSongs.SaltRoad), PaperSize.Letter },
    };

    private static Song Sample(string name) => name == nameof(SampleSongs.SaltRoad) ? SampleSongs.SaltRoad : SampleSongs.LanternFerry;

    [Theory]
    [MemberData(nameof(Samples))]
    public void SampleSheetsAreSound(string name, PaperSize paper) => Assert.All(BarSheet.Engrave(Sample(name), paper), Layout.IsSound);

    [Fact]
    public void EveryBarOfALongSongIsThereOnce()
    {
        var bars = Enumerable.Range(1, 200).Select(n => SampleSongs.LanternFerry.Bars.ElementAt(n % 12) with { Number = n }).ToImmutableArray();
        var pages = BarSheet.Engrave(SampleSongs.LanternFerry with { Sections = [new("All", [], bars)] }, PaperSize.A4);
        var numbers = pages.SelectMany(p => p.Flattened()).Select(m => m.Mark).OfType<TextMark>()
            .Where(t => t is { Size: 6.4, Tint: Tint.Quiet } && t.Text.All(char.IsAsciiDigit)).Select(t => int.Parse(t.Text)).ToArray();
        Assert.Equal(Enumerable.Range(1, 200), numbers);
        Assert.All(pages, Layout.IsSound);
    }

    // A4 = 443.2 Hz against 440 Hz is 1200·log2(443.2/440) = 12.55 cents (definition of the cent, Ellis 1885).
    [Fact]
    public void TheHeadTellsHowToSetUp()
    {
        var texts = Layout.Texts(BarSheet.Engrave(SampleSongs.LanternFerry, PaperSize.A4)[0]);
        Assert.Superset(new HashSet<string>
        {
            "A = 443.2 Hz, 13 cents sharp", "heard 93%", "D2 A2 D3 F♯3 A3 D4", "fret 2", "E major, played as D major", "4/4", "92.5 beats a minute",
                "in A, 2nd position",
        }, texts.ToHashSet());
    }

    [Fact]
    public void HeardClaimsAreMarkedAndExplained()
    {
        var page = BarSheet.Engrave(SampleSongs.SaltRoad, PaperSize.A4)[0];
        Assert.Contains(page.Flattened(), m => m.Mark is LineMark { Pen.Stroke: Tint.Heard });
        Assert.Contains(Layout.Texts(page), t => t.Contains("not yet decided by a person"));
    }

    [Fact]
    public void CorrectionsAndCautionsAreTold()
    {
        var tight = SampleSongs.LanternFerry with { Tuning = new(Tuning.Parse("E2 B2 E3 G#3 B3 E4"), Standing.Decided) };
        var words = string.Join(' ', BarSheet.Engrave(tight, PaperSize.A4).SelectMany(Layout.Texts));
        Assert.Contains("Corrected 2026-03-09, Odo Fenn, chords in Verse 1, bar 3: the record has A7sus4 from beat 3", words);
        Assert.Contains("B2, E3, G♯3 above standard pitch", words);
        Assert.Contains("stop if it hurts", words);
        Assert.Contains("↑ blow, ↓ draw", words);
    }

    [Fact]
    public void SyllablesStandOverTheBeatTheyAreSungOn()
    {
        var marks = BarSheet.Engrave(SampleSongs.LanternFerry, PaperSize.A4)[0].Flattened().ToArray();
        var syllable = marks.First(m => m.Mark is TextMark { Text: "tern" }).Bounds;
        var above = marks.Where(m => m.Mark is TextMark { Text: "&", Tint: Tint.Voice } && m.Bounds.Bottom < syllable.Top)
            .MaxBy(m => (m.Bounds.Bottom, -Math.Abs(m.Bounds.Centre.X - syllable.Left)));
        Assert.Contains(marks, m => m.Mark is TextMark { Text: "&", Tint: Tint.Voice } && m.Bounds.Centre.X >= syllable.Left - 4
            && m.Bounds.Centre.X <= syllable.Right && m.Bounds.Top == above.Bounds.Top);
    }

    /// <summary>Eight bars alike but the fourth: four arrows in the pattern, and one in the bar that differs, in each of two verses.</summary>
    [Fact]
    public void AStrumIsPrintedOnceAndThenTheBarsThatDiffer()
    {
        var texts = "title T\nsection Verse 1\nchords | D | D | D | D | D | D | D | D |\nstrum throughout | d . du u |\nstrum from 4 | d . . . |\nsection "
            + "Verse 2 like Verse 1\n";
        var page = BarSheet.Engrave(SongText.Parse(texts, "t").Song!, PaperSize.A4)[0];
        Assert.Equal(6, page.Flattened().Count(m => m.Mark is PathMark { } && m.Bounds.Height is > 3 and < 6 && m.Bounds.Width < 6));
        Assert.Contains("bars 1 to 8, but not 4", Layout.Texts(page));
        Assert.Contains("as in Verse 1, bars 9 to 16, but not 12", Layout.Texts(page));
        Assert.Equal(6, Layout.Texts(page).Count(t => t == "pattern"));
        Assert.Equal(2, Layout.Texts(page).Count(t => t == "strum") - 2);
    }

    /// <summary>Two bars in turn, eight times: the notes of two bars are drawn (three frets), and a bar that differs.</summary>
    [Fact]
    public void APickedPatternIsPrintedOnceToo()
    {
        var text = "title T\nsection Verse 1\nchords | D | D | D | D | D | D | D | D |\npick throughout\n E4 | 17 . | 18 19 |\npick from 8\n E4 | 21 . |\n";
        var page = Layout.Texts(BarSheet.Engrave(SongText.Parse(text, "t").Song!, PaperSize.A4)[0]).ToArray();
        Assert.Equal(["17", "18", "19", "21"], page.Where(t => t is "17" or "18" or "19" or "21"));
        Assert.Contains("these 2 in turn, bars 1 to 7", page);
        Assert.Equal(3, page.Count(t => t == "pattern"));
    }

    [Fact]
    public void AMeterChangeIsWritten()
    {
        var bars = SampleSongs.LanternFerry.Sections[1].Bars;
        var changed = bars.SetItem(2, new() { Number = 11, Meter = Meter.Of(3, 4) });
        Assert.Contains("3/4", Layout.Texts(TabBlock.Engrave(changed, new(Tuning.Standard), 500)));
    }

    /// <summary>The chord that a section begins with is set as one that begins; one that goes on from the bar before is pale, and that is explained.</summary>
    [Theory]
    [InlineData("section A\nchords | G |\nsection B\nchords | G |\n", 0)]
    [InlineData("section A\nchords | G | . |\nsection B\nchords | G |\n", 1)]
    public void ASectionBeginsItsFirstChord(string sections, int pale)
    {
        var song = SongText.Parse("title T\ntempo 90\n" + sections, "t.hark").Song!;
        var pages = BarSheet.Engrave(song, PaperSize.A4);
        Assert.Equal(pale, pages.SelectMany(p => p.Flattened()).Select(m => m.Mark).OfType<TextMark>().Count(t => t is { Text: "G", Tint: Tint.Quiet }));
        Assert.Equal(pale > 0, pages.SelectMany(Layout.Texts).Any(t => t.Contains("goes on from the bar before", StringComparison.Ordinal)));
    }

    /// <summary>However a correction is written, the note names the bar by its number in the song.</summary>
    [Theory]
    [InlineData("chords | G | G |  ~corrected 2026-11-25 Wren: so", "chords in B, bars 2, 3", true)]
    [InlineData("chords | G | G |  ~bar 2 corrected 2026-11-25 Wren: so", "chords in B, bar 3", true)]
    [InlineData("chords | G | G . C . |  ~bar 2 beat 3 corrected 2026-11-25 Wren: so", "chords in B, bar 3 from beat 3", true)]
    [InlineData("chords | G | G |\nstrum from 2 | d . . . |  ~corrected 2026-11-25 Wren: so", "strum in B, bar 3", true)]
    [InlineData("chords | G | G |\nanchors 2 = 0:09  ~corrected 2026-11-25 Wren: so", "times in B, bar 3", false)]
    [InlineData("chords | G | G |\nkey D major from 2  ~corrected 2026-11-25 Wren: so", "key in B, bar 3", false)]
    public void ACorrectionSaysItsBar(string lines, string expected, bool starred)
    {
        var song = SongText.Parse("title T\nrecording t.wav\ntempo 90\nsection A\nchords | C |\nsection B\n" + lines, "t.hark").Song!;
        var words = BarSheet.Engrave(song, PaperSize.A4).SelectMany(Layout.Texts).ToArray();
        Assert.Contains(words, t => t.Contains($"Corrected 2026-11-25, Wren, {expected}: so", StringComparison.Ordinal));
        Assert.Equal(starred, words.Contains("*"));
        var numbers = BarSheet.Engrave(song, PaperSize.A4).SelectMany(p => p.Flattened()).Where(m => m.Mark is TextMark { Size: 6.4 }).ToArray();
        Assert.All(numbers.Where(m => m.Mark is TextMark { Text: "*" }), star => Assert.Contains(numbers, n => n.Mark is TextMark { Text: "2" or "3" }
            && Math.Abs(n.Bounds.Top - star.Bounds.Top) < 5 && star.Bounds.Left > n.Bounds.Left && star.Bounds.Left - n.Bounds.Right < 2));
        Assert.Contains($"Wren, {expected}: so", PlayAlongPage.Write(new(song), [], "audio/wav", 12));
        Assert.Contains($"Wren, {expected}: so", string.Join(' ', ExplanationSheet.Engrave(Explanation.Of(song), PaperSize.A4).SelectMany(Layout.Texts)));
    }
}
