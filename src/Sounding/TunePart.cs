using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Audio.Synthesis.Sustained;
using Harkbook.Audio.Synthesis.Voices;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>Sounds a song's tune, each section by who sings or plays it there.</summary>
internal sealed class TunePart(Song song, IBarTimes times, Instruments instruments)
{
    private const double Strength = 0.62;
    private const int AnyString = 4;
    private static readonly Cents Scoop = Cents.FromCents(200), FallOff = Cents.FromCents(300);
    private static readonly Seconds Breath = Seconds.FromMilliseconds(25);

    private readonly TuneVowels vowels = new();

    /// <summary>One line of blocks for each player that the song has.</summary>
    public IEnumerable<IEnumerable<float[]>> Lines(AuditionOptions options, SampleRate rate, Seconds length, CancellationToken ct) =>
        song.Sections.Where(s => s.Bars.Any(b => !b.Tune.IsEmpty)).GroupBy(song.TunePlayerIn)
            .Select(p => (p.Key, Notes: p.SelectMany(s => s.Bars).SelectMany(bar => bar.Tune.Select(n => (bar, n))).ToList()))
            .Select(p => p.Key switch
            {
                TunePlayer.Whistle => new SustainedInstrument(rate, SustainedTimbre.Whistle, options.Seed).Blocks(Sustained(p.Notes), length, ct),
                TunePlayer.Fiddle => new SustainedInstrument(rate, SustainedTimbre.Fiddle, options.Seed).Blocks(Sustained(p.Notes), length, ct),
                TunePlayer.LeadGuitar => instruments.GuitarBlocks(p.Notes.Select(n => Played(n.bar, n.n)), options.Strings, ct),
                _ => new VoiceLike(rate, options.Seed).Blocks(p.Notes.Select(n => Sung(n.bar, n.n)).ToList(), length, ct),
            });

    private VoiceTone Sung(Bar bar, Claim<TuneNote> note) =>
        new(Start(bar, note), End(bar, note), instruments.Frequency(note.Value.Pitch.Midi), Strength, vowels.Of(bar, note), MotionOf(note.Value, glides: true));

    private List<SustainedNote> Sustained(List<(Bar, Claim<TuneNote>)> notes)
    {
        var made = new List<SustainedNote>();
        foreach (var (bar, note) in notes)
        {
            var before = made.Count > 0 ? made[^1].Frequency : instruments.Frequency(note.Value.Pitch.Midi);
            var frequency = instruments.Frequency(note.Value.Pitch.Midi);
            var motion = MotionOf(note.Value, glides: true);
            if (note.Value.Approach == Approach.FromNoteBefore)
                motion = motion with { SlidesFrom = Cents.Between(frequency, before) };
            made.Add(new(Start(bar, note), End(bar, note), frequency, Strength, motion));
        }
        return made;
    }

    private PlayedNote Played(Bar bar, Claim<TuneNote> note) => new(AnyString, note.Value.Pitch.Midi, Start(bar, note), End(bar, note), Strength,
        note.Value.Approach == Approach.FromNoteBefore ? PluckKind.Slid : PluckKind.Plucked, Motion: MotionOf(note.Value, glides: false));

    private Seconds Start(Bar bar, Claim<TuneNote> note) => times.At(bar.Number, note.Start);

    private Seconds End(Bar bar, Claim<TuneNote> note) =>
        times.At(bar.Number, note.Start + note.Length) - Breath is var end && end > Start(bar, note) + Breath ? end : Start(bar, note) + Breath;

    private static FingerMotion MotionOf(TuneNote note, bool glides) => new(
        SlidesFrom: note.Approach switch { Approach.FromBelow => Scoop * -1, Approach.FromAbove => Scoop, _ => default },
        BendsTo: note.Bend.By,
        StartsBent: note.Bend.IsBefore,
        Releases: note.Bend.IsReleased,
        Wavers: note.HasVibrato,
        SlidesTo: note.SlideOff switch { SlideOff.Up => FallOff, SlideOff.Down => FallOff * -1, _ => default },
        Glides: glides);
}
