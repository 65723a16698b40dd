using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>Weighs the picked and blown notes of a song, at the times that its anchors give.</summary>
internal sealed class PlayedNotes
{
    private readonly Song song;
    private readonly NoteWeigher weigher;
    private readonly ILookup<int, Played> byBar;
    private readonly HeardInstead picked;
    private readonly HeardInstead blown;

    public PlayedNotes(Song song, SongClock clock, Hearing hearing, NoteWeigher weigher, CheckOptions options)
    {
        (this.song, this.weigher) = (song, weigher);
        var harp = song.Harp?.Value.ToHarmonica();
        var notes = song.Bars.SelectMany(bar => Picked(bar).Concat(Blown(bar, harp)).Select(n => n.At(clock, bar))).ToList();
        byBar = notes.ToLookup(n => n.Where.Bar!.Value);
        var (claimed, window) = (notes.Select(n => new StartedNote(n.Pitch.Midi, n.Onset)), Seconds.FromSeconds(options.OnsetWindow));
        picked = new([.. hearing.Notes.Select(n => new StartedNote(n.Midi, n.Onset))], [.. claimed], window);
        blown = hearing.Lines.Of(LineKind.Harmonica) is { } line
            ? new([.. line.Notes.Select(n => new StartedNote(n.Midi, n.Onset))], [.. claimed], window)
            : picked;
    }

    public IEnumerable<Finding> Weigh(Bar bar) => byBar[bar.Number].Select(Weigh);

    private Finding Weigh(Played note) => (note.IsBlown ? blown : picked).Told(
        weigher.Weigh(note.Pitch.Midi, note.Onset, note.End, $"{note.How}, {note.Pitch}", note.Where, note.BentBy), note.Pitch.Midi, song.Key.Value.Centre);

    private IEnumerable<Played> Picked(Bar bar) =>
        from claim in bar.Picked
        let pitch = PitchOf(claim.Value)
        where pitch is not null
        select new Played(claim.Start, claim.Length, pitch.Value, HowPlayed(claim.Value)) { BentBy = (int)Math.Ceiling(claim.Value.Bend.By.Value / 100 - 0.5) };

    private static IEnumerable<Played> Blown(Bar bar, Harmonica? harp) =>
        from claim in bar.Harp
        let pitch = harp?.FindPitch(claim.Value)
        where pitch is not null
        select new Played(claim.Start, claim.Length, pitch.Value, "harmonica " + claim.Value) { IsBlown = true };

    /// <summary>The pitch that is meant; null for a muted note, which has none to weigh.</summary>
    private Pitch? PitchOf(PickedNote note) =>
        note.MidiOn(new(song.Tuning.Value, song.Capo.Value)) is { } midi ? Pitch.FromMidi(midi, song.Key.Value.Centre) : null;

    /// <summary>"string 4 (D3) fret 2": string 1 is the thin one, its pitch is that of the open string without capo, and frets count from the capo.</summary>
    private string HowPlayed(PickedNote note)
    {
        var tuning = song.Tuning.Value;
        var where = note.TouchedAt is { } touch ? $"harmonic at fret {touch}" : $"fret {note.Fret}";
        return $"string {tuning.Count - note.StringIndex} ({tuning.Strings[note.StringIndex]}) {where}{(note.Bend.IsNone ? "" : " bent")}";
    }

    private sealed record Played(Beats Start, Beats Length, Pitch Pitch, string How)
    {
        public bool IsBlown { get; init; }

        /// <summary>Semitones that the note is bent by to reach its pitch.</summary>
        public int BentBy { get; init; }

        public Seconds Onset { get; private init; }

        public Seconds End { get; private init; }

        public Place Where { get; private init; } = new(default);

        public Played At(SongClock clock, Bar bar)
        {
            var onset = clock.TimeOf(bar.Number, Start);
            return this with { Onset = onset, End = clock.TimeOf(bar.Number, Start + Length), Where = new(onset, bar.Number, Start.Value + 1) };
        }
    }
}
