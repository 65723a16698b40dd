using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Writing;
using Harkbook.Units;

namespace Harkbook.Workbench.Sheet;

/// <summary>Something that a note may have besides its pitch.</summary>
/// <param name="Key">What a person presses for it.</param>
/// <param name="Turned">The note as a song file writes it, with this where it was without, and without where it had it.</param>
public sealed record NoteSign(string Name, string Key, bool IsOn, string Turned)
{
    /// <summary>What the note that stands in a place may have.</summary>
    /// <param name="written">As a song file writes it.</param>
    public static ImmutableArray<NoteSign> Of(SongPart part, string written) => part switch
    {
        SongPart.Pick => PickedText.Read(written, 0).Note is { } note ? [.. Picked(note)] : [],
        SongPart.Tune => TuneNote.TryParse(written, out var note) ? [.. Sung(note)] : [],
        _ => HarpNote.TryParse(written, out var note) ? [.. Blown(note)] : [],
    };

    private static IEnumerable<NoteSign> Picked(PickedNote note)
    {
        if (!note.IsMuted)
        {
            foreach (var (name, key, attack) in Attacks)
                yield return Of(name, key, note.Attack == attack, note with { Attack = note.Attack == attack ? Attack.Picked : attack });
        }
        if (note is { IsMuted: false, TouchedAt: null })
        {
            foreach (var (name, key, steps) in Bends)
                yield return Of(name, key, note.Bend.By.Value == steps, note with { Bend = note.Bend.By.Value == steps ? default : note.Bend with
                    { By = Cents.FromCents(steps) } });
        }
        if (!note.Bend.IsNone)
        {
            yield return Of("and let back", "r", note.Bend.IsReleased, note with { Bend = note.Bend with { IsReleased = !note.Bend.IsReleased } });
            yield return Of("bent before", "e", note.Bend.IsBefore, note with { Bend = note.Bend with { IsBefore = !note.Bend.IsBefore } });
        }
        if (!note.IsMuted)
        {
            yield return Of("vibrato", "v", note.HasVibrato, note with { HasVibrato = !note.HasVibrato });
            yield return Of("slid off up", "u", note.SlideOff == SlideOff.Up, note with { SlideOff = note.SlideOff == SlideOff.Up ? default : SlideOff.Up });
            yield return Of("slid off down", "d", note.SlideOff == SlideOff.Down,
                note with { SlideOff = note.SlideOff == SlideOff.Down ? default : SlideOff.Down });
            yield return Of("lets ring", "l", note.LetsRing, note with { LetsRing = !note.LetsRing });
        }
        if (note is { TouchedAt: null, IsMuted: false })
            yield return Of("hardly played", "(", note.IsGhost, note with { IsGhost = !note.IsGhost });
        if (note is { Bend.IsNone: true, IsMuted: false, IsGhost: false })
            yield return Of("harmonic", "n", note.TouchedAt is not null,
                note.TouchedAt is { } touch ? note with { TouchedAt = null, Fret = touch } : note with { TouchedAt = note.Fret, Fret = 0 });
        yield return Of("muted", "x", note.IsMuted, note.IsMuted ? new(note.StringIndex, 0) : new(note.StringIndex, 0) { IsMuted = true });
    }

    private static readonly (string, string, Attack)[] Attacks =
    [
        ("hammered on", "h", Attack.HammeredOn), ("pulled off", "p", Attack.PulledOff), ("slid to", "s", Attack.Slid), ("tapped", "t", Attack.Tapped),
        ("slid in from below", "/", Attack.SlidFromBelow), ("slid in from above", "\\", Attack.SlidFromAbove),
    ];

    private static readonly (string, string, double)[] Bends =
        [("bent a quarter tone", "q", 50), ("bent a half step", "b", 100), ("bent a whole step", "w", 200)];

    private static NoteSign Of(string name, string key, bool isOn, PickedNote turned) => new(name, key, isOn, PickedText.Of(turned));

    private static IEnumerable<NoteSign> Sung(TuneNote note)
    {
        foreach (var (name, key, approach) in new[] { ("glided to", "s", Approach.FromNoteBefore), ("from below", "/", Approach.FromBelow),
            ("from above", "\\", Approach.FromAbove) })
            yield return new(name, key, note.Approach == approach, $"{note with { Approach = note.Approach == approach ? default : approach }}");
        yield return new("bent a quarter tone", "q", note.Bend.By.Value == 50, $"{note with { Bend = note.Bend.By.Value == 50 ? default
            : new(Cents.FromCents(50)) }}");
        yield return new("vibrato", "v", note.HasVibrato, $"{note with { HasVibrato = !note.HasVibrato }}");
        yield return new("glided off up", "u", note.SlideOff == SlideOff.Up,
            $"{note with { SlideOff = note.SlideOff == SlideOff.Up ? default : SlideOff.Up }}");
        yield return new("glided off down", "n", note.SlideOff == SlideOff.Down,
            $"{note with { SlideOff = note.SlideOff == SlideOff.Down ? default : SlideOff.Down }}");
    }

    private static IEnumerable<NoteSign> Blown(HarpNote note)
    {
        yield return new(note.Breath == Breath.Blow ? "drawn instead" : "blown instead", "d", false,
            $"{note with { Breath = note.Breath == Breath.Blow ? Breath.Draw : Breath.Blow }}");
        foreach (var deep in new[] { 1, 2, 3 })
            yield return new($"bent {deep} half {(deep == 1 ? "step" : "steps")}", deep == 1 ? "b" : deep == 2 ? "w" : "m", note.Bend == -deep,
                $"{note with { Bend = note.Bend == -deep ? 0 : -deep, Slide = false }}");
        yield return new("over-bent", "o", note.Bend > 0, $"{note with { Bend = note.Bend > 0 ? 0 : 1, Slide = false }}");
        yield return new("slide in", "s", note.Slide, $"{note with { Slide = !note.Slide, Bend = 0 }}");
    }
}
