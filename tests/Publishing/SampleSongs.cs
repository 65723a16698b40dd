using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Publishing.Tests;

/// <summary>Two invented songs that use every part of a sheet.</summary>
public static class SampleSongs
{
    /// <summary>Open D, capo 2, harmonica, picked bars, long syllables; partly heard, once corrected.</summary>
    public static Song LanternFerry { get; } = Ferry();

    /// <summary>6/8 in standard tuning, all of it heard; a long title with letters from several alphabets.</summary>
    public static Song SaltRoad { get; } = Road();

    private static Song Ferry()
    {
        var shapes = ImmutableArray.Create(
            Named("D", "000000"), Named("G/D", "020120", 0, 2, 0, 1, 3, 0), Named("A7sus4", "202020", 1, 0, 2, 0, 3, 0),
            Named("Bm7", "x22000", 0, 1, 1, 0, 0, 0), Named("F#m7b5@high", "x.9.10.9.x.x") with { Standing = Standing.Heard(0.61) },
            Named("G", "555555", 1, 1, 1, 1, 1, 1));
        var number = 1;
        Bar[] verse = [.. Lines(2).SelectMany(_ => new[]
        {
            Played(shapes, number++, "D", "Down 0;the 1/2;lan- 1;tern 3/2;fer- 2;ry's 5/2;slip- 3;way 7/2", ""),
            Played(shapes, number++, "G/D", "where 0;Mar- 3/2;i- 2;nel 5/2;keeps 3;the 7/2", ""),
            Played(shapes, number++, "D 0;A7sus4 2", "light 0;on 5/2;strings 3;stretched 15/4", ""),
            Played(shapes, number++, "Bm7", "through 1/4;the 3/4;fog 1", "+4;-4;+5"),
        })];
        Bar[] middle = [.. Enumerable.Range(0, 4).Select(i => Picked(shapes, number++, i % 2 == 0 ? "D" : "F#m7b5@high"))];
        return new Song
        {
            Title = "The Lantern Ferry (Převozník s lucernou)",
            Player = "Ilse Varnholt & the Quay Street Trio",
            Recording = new("lantern-ferry.flac", null, Seconds.FromSeconds(47)),
            ReferencePitch = new(Hertz.FromHertz(443.2), Standing.Heard(0.93)),
            Tuning = new(Tuning.Parse("D2 A2 D3 F#3 A3 D4"), Standing.Decided),
            Capo = new(Capo.At(2), Standing.Decided),
            Meter = new(Meter.CommonTime, Standing.Decided),
            Tempo = new(92.5, Standing.Heard(0.88)),
            Key = new(Key.Parse("E major"), Standing.Decided),
            Harp = new(new HarpReference(PitchName.Parse("A"), "richter"), Standing.Heard(0.7)),
            Shapes = shapes,
            Sections =
            [
                new("Verse 1", [new(1, Seconds.FromSeconds(4.2)), new(9, Seconds.FromSeconds(25))], [.. verse]),
                new("Break", [new(5, Seconds.FromSeconds(35.6))], [.. middle]),
            ],
        };
    }

    private static Song Road()
    {
        var shapes = ImmutableArray.Create(Named("C", "x32010", 0, 3, 2, 0, 1, 0), Named("Am", "x02210", 0, 0, 2, 3, 1, 0),
            Named("F", "133211", 1, 3, 4, 2, 1, 1), Named("G7", "320001", 3, 2, 0, 0, 0, 1));
        string[] chords = ["C", "Am", "F", "G7"];
        var bars = Enumerable.Range(1, 60).Select(n => Lilting(shapes, n, chords[n % 4])).ToArray();
        return new Song
        {
            Title = "Salt Road, Sand Road, and the Seven Unreasonably Long Miles to Øresmouth — Соляная дорога, Δρόμος του αλατιού",
            ReferencePitch = new(Hertz.A440, Standing.Heard(0.99)),
            Tuning = new(Tuning.Standard, Standing.Heard(0.97)),
            Capo = new(Capo.None, Standing.Heard(0.9)),
            Meter = new(Meter.Of(6, 8), Standing.Heard(0.8)),
            Tempo = new(58, Standing.Heard(null)),
            Key = new(Key.Parse("C major"), Standing.Heard(0.9)),
            Shapes = [.. shapes.Select(s => s with { Standing = Standing.Heard(0.8) })],
            Sections = [.. bars.Chunk(12).Select((chunk, i) => new Section($"Part {i + 1}", [], [.. chunk]))],
        };
    }

    private static IEnumerable<int> Lines(int count) => Enumerable.Range(0, count);

    private static NamedShape Named(string name, string shape, params int[] fingers) =>
        new(name, Shape.Parse(shape).WithFingers([.. fingers]), Standing.Decided);

    private static Bar Played(ImmutableArray<NamedShape> shapes, int number, string chords, string sung, string harp) => new()
    {
        Number = number,
        Meter = Meter.CommonTime,
        Chords = Chords(shapes, chords, number == 3 ? Standing.Corrected(new(2026, 3, 9), "Odo Fenn", "the record has A7sus4 from beat 3, not beat 4")
            : Standing.Decided),
        Sung = [.. Sung(sung)],
        Strums = [.. new[] { (0, 2, Stroke.Down), (2, 2, Stroke.Down), (3, 2, Stroke.Up), (5, 2, Stroke.Up), (6, 2, Stroke.Muted), (7, 2, Stroke.Up) }
            .Select(s => new Claim<Stroke>(Beats.Fraction(s.Item1, s.Item2), Beats.Fraction(1, 2), s.Item3, Standing.Decided))],
        Harp = [.. harp.Split(';', StringSplitOptions.RemoveEmptyEntries)
            .SelectMany((h, i) => new[] { HarpNote.Parse(h), HarpNote.Parse(h) with { Hole = HarpNote.Parse(h).Hole + 1 } }
            .Select(n => new Claim<HarpNote>(Beats.Whole(i + 1), Beats.Whole(1), n, Standing.Heard(0.6))))],
    };

    private static Bar Picked(ImmutableArray<NamedShape> shapes, int number, string chord) => new()
    {
        Number = number,
        Meter = Meter.CommonTime,
        Chords = Chords(shapes, chord, Standing.Heard(0.5)),
        Picked = [.. new[] { (0, 0, 0, Attack.Picked), (1, 3, 0, Attack.Picked), (2, 4, 2, Attack.Picked), (3, 4, 4, Attack.HammeredOn),
            (4, 5, 12, Attack.Picked), (5, 5, 10, Attack.PulledOff), (6, 2, 3, Attack.Slid), (7, 3, 0, Attack.Picked) }
            .Select(p => new Claim<PickedNote>(Beats.Fraction(p.Item1, 2), Beats.Fraction(1, 2), new(p.Item2, p.Item3, p.Item4), number % 2 == 0
                ? Standing.Decided : Standing.Heard(0.4)))],
        Harp = [new(Beats.Zero, Beats.Whole(2), HarpNote.Parse("-2''"), Standing.Decided),
            new(Beats.Whole(2), Beats.Whole(1), HarpNote.Parse("+6o"), Standing.Decided)],
    };

    private static Bar Lilting(ImmutableArray<NamedShape> shapes, int number, string chord) => new()
    {
        Number = number,
        Meter = Meter.Of(6, 8),
        Chords = Chords(shapes, chord, Standing.Heard(0.7), beats: 2),
        Sung = number % 3 == 0 ? [] : [.. Sung("salt 0;and 2/3;straight- 1;ened 5/3").Select(s => s with { Standing = Standing.Heard(0.3) })],
        Strums = [.. Enumerable.Range(0, 6)
            .Select(i => new Claim<Stroke>(Beats.Fraction(i, 3), Beats.Fraction(1, 3), i % 3 == 0 ? Stroke.Down : Stroke.Up, Standing.Heard(0.5)))],
    };

    private static ImmutableArray<Claim<ChordUse>> Chords(ImmutableArray<NamedShape> shapes, string text, Standing standing, int beats = 4)
    {
        var parts = text.Split(';').Select(t => t.Split(' ')).ToArray();
        var starts = parts.Select(t => t.Length > 1 ? Place(t[1]) : Beats.Zero).Append(Beats.Whole(beats)).ToArray();
        return [.. parts.Select((t, i) => new Claim<ChordUse>(starts[i], starts[i + 1] - starts[i],
            new(ChordSymbol.Read(t[0].Split('@')[0]), t[0], shapes.First(s => s.Name == t[0]).Shape), standing))];
    }

    private static IEnumerable<Claim<string>> Sung(string text)
    {
        var syllables = text.Split(';').Select(t => t.Split(' ')).Select(t => (Word: t[0], At: Place(t[1]))).ToArray();
        for (var i = 0; i < syllables.Length; i++)
        {
            var end = i + 1 < syllables.Length ? syllables[i + 1].At : syllables[i].At + Beats.Fraction(1, 2);
            yield return new(syllables[i].At, end - syllables[i].At, syllables[i].Word, Standing.Decided);
        }
    }

    private static Beats Place(string text)
    {
        var parts = text.Split('/');
        return Beats.Fraction(int.Parse(parts[0]), parts.Length > 1 ? int.Parse(parts[1]) : 1);
    }
}
