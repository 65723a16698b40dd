using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking.Lines;

/// <summary>Weighs the tune's notes against what else its voice, whistle or fiddle may have sounded, where such a line was made out.</summary>
internal sealed class TuneWeigher
{
    /// <summary>From these log-odds on another note of the line is told of: about the least of which its cells are kept at all.</summary>
    private const double Audible = -2;

    private readonly WeigherModel model = WeigherModel.Of("TuneNote");
    private readonly Dictionary<int, TuneFeatures> features = [];
    private readonly Song song;
    private readonly SongClock clock;

    public TuneWeigher(Song song, SongClock clock, HeardStarts starts, Hearing hearing)
    {
        (this.song, this.clock) = (song, clock);
        foreach (var (section, line) in song.Sections.Select(s => (s, TuneLine.Of(song, s, hearing))).Where(s => s.Item2 is not null))
        {
            var kind = Array.IndexOf(LineNetwork.Kinds, line!.Kind.Best);
            var made = new TuneFeatures(starts, new(hearing.Evidence.Lines, hearing.Evidence.Notes.Hop.Value, kind), line.Notes);
            foreach (var bar in section.Bars)
                features[bar.Number] = made;
        }
    }

    public IEnumerable<Finding> Weigh(Bar bar) => features.TryGetValue(bar.Number, out var found) ? bar.Tune.Select(n => Weigh(bar, n, found)) : [];

    private Finding Weigh(Bar bar, Claim<TuneNote> note, TuneFeatures found)
    {
        var onset = clock.TimeOf(bar.Number, note.Start);
        var claim = new TuneClaim(note.Value.Meant.Midi, onset.Value, clock.TimeOf(bar.Number, note.Start + note.Length).Value);
        var logOdds = model.LogOdds(found.Of(claim));
        var rival = found.Rival(claim);
        var isHeard = rival.Sounds > Audible || rival.Starts > Audible;
        var name = Pitch.FromMidi(rival.Midi, song.KeyAt(bar.Number).Spell(rival.Midi % 12));
        return Finding.Weighed(ClaimKind.TuneNote, logOdds, new(onset, bar.Number, note.Start.Value + 1), $"the tune's {note.Value}",
            isHeard ? $"{name} sounds then" : "no note of it is heard to sound then")
            with { Rival = new(isHeard ? name.ToString() : "_", -logOdds) };
    }
}
