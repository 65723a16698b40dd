using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>
/// Weighs on which string a note is picked, as far as the hand can tell: where the notes around it and the shape held leave it. What sounds at one pitch
/// on two strings the recording isn't asked.
/// </summary>
internal sealed class PlaceWeigher
{
    private const double Least = 0.02;

    private readonly Song song;
    private readonly SongClock clock;
    private readonly Fretboard neck;
    private readonly Dictionary<(int Bar, Claim<PickedNote> Note), (int StringIndex, int Fret, double Confidence)> path = [];

    public PlaceWeigher(Song song, SongClock clock)
    {
        (this.song, this.clock, neck) = (song, clock, new(song.Tuning.Value, song.Capo.Value));
        var notes = song.Bars.SelectMany(b => b.Picked.Where(IsPlain).Select(p => (Bar: b, Note: p))).ToArray();
        var found = Fretter.Find([.. notes.Select(n => Sounded(n.Bar, n.Note))], new(song.Tuning.Value, song.Capo.Value));
        for (var i = 0; i < notes.Length; i++)
            path[(notes[i].Bar.Number, notes[i].Note)] = (found.Strings[i], found.Frets[i], found.Confidence[i]);
    }

    /// <summary>Whether the note lies on several strings at all.</summary>
    public bool IsAsked(Bar bar, Claim<PickedNote> note) =>
        IsPlain(note) && path[(bar.Number, note)].StringIndex >= 0 && neck.PlacesOf(neck.MidiAt(note.Value.StringIndex, note.Value.Fret)).Length > 1;

    public Feature[] Features(Bar bar, Claim<PickedNote> note)
    {
        var (s, _, confidence) = path[(bar.Number, note)];
        var midi = neck.MidiAt(note.Value.StringIndex, note.Value.Fret);
        var shape = SongNotes.ShapeAt(bar, note.Start);
        return
        [
            new("agrees", (s == note.Value.StringIndex ? 1 : -1) * LogOdds.Of(confidence, Least)),
            new("held", shape?.Frets[note.Value.StringIndex] == note.Value.Fret ? 1 : 0),
            new("held elsewhere", shape is not null && IsHeldElsewhere(shape, note.Value.StringIndex, midi) ? 1 : 0),
        ];
    }

    private bool IsHeldElsewhere(Shape shape, int stringIndex, int midi) =>
        shape.Frets.Index().Any(f => f.Index != stringIndex && f.Item is { } fret && neck.MidiAt(f.Index, fret) == midi);

    public IEnumerable<Finding> Weigh(Bar bar) => bar.Picked.Where(p => IsAsked(bar, p)).Select(p => Weigh(bar, p));

    private Finding Weigh(Bar bar, Claim<PickedNote> note)
    {
        var logOdds = WeigherModel.Of("Place").LogOdds(Features(bar, note));
        var other = Other(bar, note);
        var tuning = song.Tuning.Value;
        var finding = Finding.Weighed(ClaimKind.PlaceOnNeck, logOdds, new(clock.TimeOf(bar.Number, note.Start), bar.Number, note.Start.Value + 1),
            $"on string {tuning.Count - note.Value.StringIndex} ({tuning.Strings[note.Value.StringIndex]}) at fret {note.Value.Fret}",
            $"string {tuning.Count - other.StringIndex} ({tuning.Strings[other.StringIndex]}) at fret {other.Fret} sounds the same and lies nearer the hand");
        return finding with { Rival = new(string.Create(CultureInfo.InvariantCulture, $"{tuning.Strings[other.StringIndex]} {other.Fret}"), -logOdds) };
    }

    /// <summary>Where the hand would rather play it; where that is the claim, the place that lies nearest to it.</summary>
    private (int StringIndex, int Fret) Other(Bar bar, Claim<PickedNote> note)
    {
        var found = path[(bar.Number, note)];
        return found.StringIndex != note.Value.StringIndex ? (found.StringIndex, found.Fret)
            : neck.PlacesOf(neck.MidiAt(note.Value.StringIndex, note.Value.Fret)).Where(p => p.StringIndex != note.Value.StringIndex)
                .Select(p => (p.StringIndex, p.Fret)).MinBy(p => Math.Abs(p.Fret - note.Value.Fret));
    }

    private static bool IsPlain(Claim<PickedNote> note) => note.Value is { IsMuted: false, TouchedAt: null };

    private HeardNote Sounded(Bar bar, Claim<PickedNote> note)
    {
        var onset = clock.TimeOf(bar.Number, note.Start);
        var end = clock.TimeOf(bar.Number, note.Start + note.Length);
        return new(neck.MidiAt(note.Value.StringIndex, note.Value.Fret), onset, end > onset ? end : onset + Seconds.FromMilliseconds(50), 1, 1);
    }
}
