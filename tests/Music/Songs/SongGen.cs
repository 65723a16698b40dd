using System.Collections.Immutable;
using CsCheck;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

/// <summary>Songs of every kind that a song file can say.</summary>
internal static class SongGen
{
    private static readonly Gen<string> Text = Gen.Char["abcXYZ ,;~\"|?.:_()%#@0Éß"].Array[1, 12].Select(c => new string(c));

    private static readonly Gen<Standing> AnyStanding = Gen.Frequency(
        (4, Gen.Const(Standing.Decided)),
        (4, Gen.Int[0, 100].Select(p => Standing.Heard(p / 100.0))),
        (1, Gen.Const(Standing.Heard(null))),
        (1, Gen.Select(Gen.Int[0, 5000], Text, Text, (d, by, why) => Standing.Corrected(new DateOnly(2020, 1, 1).AddDays(d), by, why.Trim() + "!"))));

    private static readonly string[] Names = ["D", "Bm7", "G/D@low", "G/D@high", "N.C.", "F#m7b5", "Asus4"];

    private static readonly Key Key = Key.Parse("D mixolydian");

    private static readonly Meter[] Meters = [Meter.Of(4, 4), Meter.Of(3, 4), Meter.Of(6, 8), Meter.Of(5, 8), Meter.Of(12, 8)];

    public static Gen<Song> Songs { get; } =
        from facts in Gen.Select(Text, Text, OneOf(Meters), Gen.Int[3800, 5000], Gen.Int[200, 4000], AnyStanding)
        from capo in OneOf(Capo.None, Capo.At(3), Capo.At(8), Capo.At(2, [1, 3, 4]))
        from recording in Gen.Select(Text, Gen.Int[600_000, 900_000],
            (path, ms) => new RecordingReference(path.Trim() + "x", new string('a', 64), Seconds.FromMilliseconds(ms)))
        from standings in AnyStanding.Array[4]
        from counts in Gen.Select(OneOf(Meters).Array[0, 9], Text).Array[0, 3]
        from seed in Gen.Int[0, int.MaxValue]
        select Build(facts, capo, recording, standings, counts, new Random(seed));

    public static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static Song Build((string, string, Meter, int, int, Standing) facts, Capo capo, RecordingReference recording, Standing[] standings,
        (Meter[] Meters, string Name)[] counts, Random random)
    {
        var shapes = Names[2..4].Select((n, i) => new NamedShape(n, Shape.Parse(i == 0 ? "020120" : "x.10.12.12.11.10"), standings[i])).ToImmutableArray();
        var (title, player, meter, pitch, tempo, standing) = facts;
        return new()
        {
            Title = title,
            Player = player,
            Album = random.Next(2) == 0 ? null : title + player,
            Recording = recording,
            ReferencePitch = new(Hertz.FromHertz(pitch / 10.0), standing),
            Tuning = new(Tuning.Parse("D2 A2 D3 F#3 A3 D4"), standings[2]),
            Capo = new(capo, standings[3]),
            HandNames = capo.IsPartial || random.Next(2) == 0 ? null : CapoNames.RaiseTo(Key, capo),
            Meter = new(meter, standings[0]),
            Tempo = new(tempo / 10.0, standings[1]),
            Key = new(Key, standings[2]),
            Harp = random.Next(2) == 0 ? null
                : new(new(PitchName.Parse("A"), random.Next(2) == 0 ? "richter" : "natural-minor", random.Next(3) - 1), standings[3]),
            TunePlayer = random.Next(2) == 0 ? null : new((TunePlayer)random.Next(4), standings[2]),
            Counting = random.Next(2) == 0 ? Counting.Beats : Counting.Divisions,
            Shapes = shapes,
            Sections = Sections(counts, shapes, random, standings),
        };
    }

    private static ImmutableArray<Section> Sections((Meter[] Meters, string Name)[] counts, ImmutableArray<NamedShape> shapes, Random random,
        Standing[] standings)
    {
        var (number, time) = (1, 0.0);
        var sections = ImmutableArray.CreateBuilder<Section>();
        foreach (var (meters, name) in counts)
        {
            var made = new SectionMaker(meters, shapes, random, standings).Make(number);
            var anchors = Enumerable.Range(1, meters.Length).Where(_ => random.Next(3) == 0)
                .Select(bar => new Anchor(bar, Seconds.FromMilliseconds(time += random.Next(1, 9000))) { Standing = standings[random.Next(4)] });
            var keys = Enumerable.Range(1, meters.Length).Where(_ => random.Next(5) == 0)
                .Select(bar => new KeyChange(bar,
                    new(PitchName.FromFifths(random.Next(-5, 7)), Mode.All[random.Next(7)])) { Standing = standings[random.Next(4)] }).ToImmutableArray();
            sections.Add(new(name, [.. anchors], made) { Standing = standings[random.Next(4)], Keys = keys, TunePlayer = Player() });
            if (random.Next(3) == 0)
                sections.Add(new(name + "2", [], [.. made.Select(b => b with { Number = b.Number + made.Length })]) {
                    Keys = random.Next(2) == 0 ? keys : [], TunePlayer = Player() });
            number = 1 + sections.Sum(s => s.Bars.Length);
        }
        return sections.ToImmutable();

        TunePlayer? Player() => random.Next(3) == 0 ? (TunePlayer)random.Next(4) : null;
    }

    /// <summary>Makes bars whose claims follow one another, each up to the next or to a silence.</summary>
    private sealed class SectionMaker(Meter[] meters, ImmutableArray<NamedShape> shapes, Random random, Standing[] standings)
    {
        public ImmutableArray<Bar> Make(int first)
        {
            var bars = meters.Select((m, i) => new Bar { Number = first + i, Meter = m }).ToArray();
            for (var i = 0; i < bars.Length; i++)
                bars[i] = bars[i] with { Chords = [.. Starts(i).Select((s, n) => Claim(s, Chord(n + i)))] };
            Fill(bars, (b, c) => b with { Sung = c }, i => Syllables[i % Syllables.Length]);
            Fill(bars, (b, c) => b with { Tune = c }, i => Tune[i % Tune.Length]);
            Fill(bars, (b, c) => b with { Strums = c }, i => (Stroke)(i % 3));
            Fill(bars, (b, c) => b with { Harp = c }, i => new HarpNote(1 + i % 10, i % 2 == 0 ? Breath.Blow : Breath.Draw, -(i % 3), i % 6 == 0));
            Fill(bars, (b, c) => b with { Picked = c }, i => Picked[i % Picked.Length]);
            return [.. bars];
        }

        private static readonly PickedNote[] Picked = [.. PickedGen.Notes.Array[60].Single(_ => true, "0000KhQ8ZQk4").Select(n => n with { StringIndex = 2 })];

        private static readonly string[] Syllables = ["fer-", "ry", "x", "x?", "why?", "why?5", "a,b", ".", "_", "\"so\"", "(ooh", ":", "%", "it's", "~"];

        /// <summary>Every sign that a note of a tune may have, spelled and respelled.</summary>
        private static readonly TuneNote[] Tune =
        [
            .. from approach in Enum.GetValues<Approach>()
               from bend in new Bend[] { default, new(Cents.FromCents(50)), new(Cents.FromCents(100), true), new(Cents.FromCents(250), false, true) }
               from off in Enum.GetValues<SlideOff>()
               from pitch in new[] { "Bb3", "F#4", "D0", "E5" }
               select new TuneNote(Pitch.Parse(pitch), approach) { Bend = bend, SlideOff = off, HasVibrato = off == SlideOff.None },
        ];

        private ChordUse Chord(int i)
        {
            var name = Names[i % Names.Length];
            return new(ChordSymbol.Read(name.Split('@')[0]), name, shapes.FirstOrDefault(s => s.Name == name)?.Shape);
        }

        private Claim<T> Claim<T>((Beats Start, Beats Length) at, T value) => new(at.Start, at.Length, value, standings[random.Next(4)]);

        /// <summary>Chords: every second start of a bar with a gap, each chord up to the next start or the bar's end.</summary>
        private IEnumerable<(Beats Start, Beats Length)> Starts(int bar)
        {
            var length = meters[bar].BarLength;
            var cuts = Cuts(bar).Append(length).ToList();
            return Enumerable.Range(0, cuts.Count - 1).Where(_ => random.Next(5) > 0).Select(i => (cuts[i], cuts[i + 1] - cuts[i]));
        }

        private List<Beats> Cuts(int bar)
        {
            var cells = random.Next(1, 9);
            return [.. Enumerable.Range(0, cells).Where(_ => random.Next(2) == 0).Select(i => Beats.Fraction(i * meters[bar].BeatsPerBar, cells))];
        }

        private void Fill<T>(Bar[] bars, Func<Bar, ImmutableArray<Claim<T>>, Bar> with, Func<int, T> value)
        {
            if (random.Next(3) == 0)
                return;
            var from = random.Next(bars.Length + 1);
            var starts = Enumerable.Range(from, bars.Length - from).Where(_ => random.Next(4) > 0)
                .SelectMany(b => Cuts(b).Select(at => (Bar: b, At: at))).ToList();
            var claims = starts.Select((s, i) => (s.Bar, Claim: Claim((s.At, Until(s, i + 1 < starts.Count ? starts[i + 1] : (bars.Length, Beats.Zero))),
                value(i + from)))).ToLookup(c => c.Bar, c => c.Claim);
            for (var i = 0; i < bars.Length; i++)
                bars[i] = with(bars[i], [.. claims[i]]);
        }

        private Beats Until((int Bar, Beats At) start, (int Bar, Beats At) end)
        {
            var length = end.At - start.At;
            for (var b = start.Bar; b < end.Bar; b++)
                length += meters[b].BarLength;
            return random.Next(3) == 0 ? length / 2 : length;
        }
    }
}
