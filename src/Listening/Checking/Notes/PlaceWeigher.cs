using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>
/// Weighs on which string a note is picked: where the notes around it, the shape held and the stiffness of the string that is heard leave it.
/// </summary>
internal sealed class PlaceWeigher
{
    private const double Least = 0.02, Apart = 0.06;

    private readonly Song song;
    private readonly SongClock clock;
    private readonly Fretboard neck;
    private readonly Dictionary<(int Bar, Claim<PickedNote> Note), (int StringIndex, int Fret, double Confidence)> path = [];

    /// <param name="hearing">Where what is known of the notes' strings counts too.</param>
    public PlaceWeigher(Song song, SongClock clock, Hearing? hearing = null)
    {
        (this.song, this.clock, neck) = (song, clock, new(song.Tuning.Value, song.Capo.Value));
        var notes = song.Bars.SelectMany(b => b.Picked.Where(IsPlain).Select(p => (Bar: b, Note: p))).ToArray();
        ImmutableArray<HeardNote> sounded = [.. notes.Select(n => Sounded(n.Bar, n.Note))];
        var found = Fretter.Find(sounded, new(song.Tuning.Value, song.Capo.Value), onString: hearing is null ? null : OnString(sounded, hearing));
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

    /// <summary>What each claimed note costs on a string by the heard note that it is.</summary>
    private Func<int, int, double>? OnString(ImmutableArray<HeardNote> sounded, Hearing hearing)
    {
        var costs = StringCosts.Of(hearing.Notes, song.Tuning.Value, song.Capo.Value, StiffNotes.Of(hearing.Evidence.Stiffness, hearing.Notes));
        if (costs is null)
            return null;
        var heard = sounded.Select(n => HeardAs(n, hearing.Notes)).ToArray();
        return (note, s) => heard[note] < 0 ? 0 : costs(heard[note], s);
    }

    private static int HeardAs(HeardNote note, ImmutableArray<HeardNote> heard) =>
        Enumerable.Range(0, heard.Length).Where(i => heard[i].Midi == note.Midi && Math.Abs((heard[i].Onset - note.Onset).Value) < Apart)
            .DefaultIfEmpty(-1).MinBy(i => i < 0 ? 0 : Math.Abs((heard[i].Onset - note.Onset).Value));

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
