using System.Globalization;
using System.Text;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Rebarring;

/// <summary>
/// Bars a song anew: at another level of its beats, in another meter, with its bars starting elsewhere. Every chord, stroke, note and syllable
/// stays at its time in the recording, with its standing; comments stay with the bars that they stood at.
/// </summary>
public sealed class SongRebarring
{
    private readonly SongDocument document;
    private readonly Song song;
    private readonly BarChange change;
    private readonly SongAxis line;
    private readonly BarPlan plan;
    private readonly NewVoices voices;
    private readonly KeptLines notes;
    private readonly List<string> remarks = [];
    private readonly Dictionary<int, NewSection> kept;
    private readonly MovedBorder? border;

    private SongRebarring(SongDocument document, BarChange change, MovedBorder? border = null)
    {
        this.document = document;
        this.border = border;
        this.change = change;
        song = document.Song ?? throw new ArgumentException("The document has mistakes, so there is no song to bar anew.", nameof(document));
        line = new(document.Syntax, song.Meter.Value);
        plan = new(line, document.Syntax, change, song.Meter.Value, [.. SaidTies().Select(t => t.At)], RequirePlace(border));
        RequireSense();
        voices = new(line, plan, change.Level);
        RequireCells();
        notes = new(document.Syntax, line);
        kept = plan.Sections.Where(s => s.Old is not null && s.End > s.First).ToDictionary(s => s.Old!.Value);
    }

    private SongSyntax Syntax => document.Syntax;

    /// <exception cref="RebarException">The song can't be barred so.</exception>
    public static Rebarred Of(SongDocument document, BarChange change) => new SongRebarring(document, change).Make();

    /// <summary>
    /// Moves a section's first bar line to another bar, decided: bars go over from the section before it, or to it. All bars stay as they are, and so do the
    /// lines of every other section, but for those that were like one of the two.
    /// </summary>
    /// <param name="section">From 1; the song's first has no border before it.</param>
    /// <param name="firstBar">Through the song.</param>
    /// <exception cref="RebarException">The border can't lie there.</exception>
    public static SongDocument MoveBorder(SongDocument document, int section, int firstBar) =>
        SongText.Parse(new SongRebarring(document, new(TempoLevel.Same), new(section, firstBar)).Make().Text, document.FileName)
            .WithSectionStanding(section, Standing.Decided);

    /// <summary>By how many beats bars must start later (or earlier, below 0) so that one starts at the beat nearest to a time.</summary>
    public static Beats LaterFor(SongDocument document, TempoLevel level, Meter? meter, Seconds time)
    {
        var here = new SongRebarring(document, new(level, meter));
        var (number, beat) = new SongClock(here.song).PlaceOf(time);
        var at = here.line.Bars[number - 1].Start + Beats.Whole((int)Math.Round(beat));
        var bar = here.plan.Bars[here.plan.BarAt(at)];
        return at - bar.Start > bar.End - at ? at - bar.End : at - bar.Start;
    }

    private void RequireSense()
    {
        var tempo = song.Tempo.Value * change.Level.Ratio;
        if (tempo is < 20 or > 400)
            throw new RebarException(string.Create(CultureInfo.InvariantCulture,
                $"At this level the tempo {song.Tempo.Value:0.##} becomes {tempo:0.##}; a tempo is 20 to 400 felt beats a minute."));
        if (line.Bars.IsEmpty)
            throw new RebarException("The song has no bars yet, so there is nothing to bar anew.");
        var most = plan.WholeBar;
        if (change.Later >= most || change.Later * -1 >= most)
            throw new RebarException($"The new bars last {most} of the song's beats, so they can start less than {most} later or earlier.");
    }

    private MovedBorder? RequirePlace(MovedBorder? asked)
    {
        if (asked is not { } moved)
            return null;
        if (moved.Section < 1 || moved.Section >= song.Sections.Length)
            throw new RebarException("The song's first section begins with its first bar; another section's border can be moved.");
        var first = line.Bars.TakeWhile(b => b.Section < moved.Section - 1).Count() + 2;
        var last = line.Bars.TakeWhile(b => b.Section <= moved.Section).Count();
        return moved.FirstBar >= first && moved.FirstBar <= last ? asked
            : throw new RebarException($"{song.Sections[moved.Section].Name} can begin with bar {first} to {last}, so that it and "
                + $"{song.Sections[moved.Section - 1].Name} keep a bar each.");
    }

    private void RequireCells()
    {
        foreach (var (bar, index) in plan.Bars.Select((b, i) => (b, i)))
        {
            if (voices.All.Any(v => !BarGrid.CanHold(bar.Meter, [.. voices.In(v, index).Select(w => new CellEvent(w.Start, w.Text))])))
                throw new RebarException($"What starts in new bar {index + 1} lies too finely for one bar's cells. Write the bars that it comes from on one "
                    + "grid first, such as quarters of the beat.");
        }
    }

    private Rebarred Make()
    {
        var text = new StringBuilder(Head());
        foreach (var section in plan.Sections)
            Write(text, section);
        foreach (var comment in notes.AtEnd)
            text.Append(comment).Append('\n');
        if (Syntax.Sections.SelectMany(s => s.Lines).Any(l => l.WrittenFor is not null))
            remarks.Add("Named patterns stand in the new bars without their names; their own lines stay as they were, for the old ones.");
        return new(WithFacts(text.ToString().ReplaceLineEndings(Syntax.Source.NewLine)), [.. remarks]);
    }

    /// <summary>All before the first section and the comments over it, as it stands.</summary>
    private string Head()
    {
        var first = Syntax.Sections[0].Header;
        return Syntax.Source.Text[..first.Whole.Start];
    }

    private void Write(StringBuilder text, NewSection section)
    {
        var old = section.Old is { } index ? Syntax.Sections[index] : null;
        if (IsAsItWas(section, old, Like(section, old)))
        {
            text.Append(new SectionSlices(Syntax).Of(section.Old!.Value).ReplaceLineEndings("\n"));
            return;
        }
        if (text.Length > 0 && section != plan.Sections[0])
            text.Append('\n');
        foreach (var comment in old is null ? [] : notes.Above(old.Header))
            text.Append(comment).Append('\n');
        if (section.End == section.First)
        {
            text.Append("; ").Append(old!.Header.Whole.In(old.Header.Text).Trim()).Append('\n');
            remarks.Add($"{old.Name} is shorter than half a new bar; its bars went to its neighbours, and its line was made a comment.");
            return;
        }
        var like = Like(section, old);
        text.Append(old is null ? $"{"section",-10} {Free(section.First == 0 ? BarPlan.PickUp : "Last bar")}" : Header(old, like)).Append('\n');
        var indent = Indent(old);
        foreach (var anchors in AnchorLines.Of(AnchorsOf(section)))
            text.Append(indent).Append(anchors).Append('\n');
        if (old is not null)
            WriteKeys(text, section, old, like, indent);
        if ((like is null ? old?.TunePlayerSaid : old?.TunePlayer) is { } player)
            text.Append(indent).Append($"{SongSyntax.Tune,-10} {player.InWords()}\n");
        var placed = notes.All.ToLookup(n => plan.BarAt(n.At));
        new SectionRewriter(section, like, old, voices, plan, placed, indent, song.Tuning.Value).Write(text, change.MeterFrom(song.Meter.Value));
        Remark(section, old);
    }

    /// <summary>The section that this one is still like: it must have the same bars.</summary>
    private NewSection? Like(NewSection section, SectionSyntax? old)
    {
        if (old?.Like is not { } before || !kept.TryGetValue(Syntax.Sections.IndexOf(before), out var like))
            return null;
        return Meters(like).SequenceEqual(Meters(section)) && section.End - section.First == like.End - like.First ? like : null;
    }

    /// <summary>Whether a section keeps its bars where only a border moves.</summary>
    private bool IsAsItWas(NewSection section, SectionSyntax? old, NewSection? like) =>
        border is { } moved && section.Old is { } index && index != moved.Section && index != moved.Section - 1 && (old!.Like is null || like is not null);

    private IEnumerable<Meter> Meters(NewSection section) => plan.Bars.Take(section.End).Skip(section.First).Select(b => b.Meter);

    private string Header(SectionSyntax old, NewSection? like)
    {
        var whole = old.Header.Whole.In(old.Header.Text);
        if (old.Like is null || like is not null)
            return whole;
        remarks.Add($"{old.Name} is written out, since its new bars are no longer those of {old.Like.Name}.");
        var at = old.Header.BodyText.LastIndexOf(" like ", StringComparison.Ordinal) + old.Header.Body.Start - old.Header.Whole.Start;
        return whole[..at].TrimEnd() + whole[(old.Header.Body.End - old.Header.Whole.Start)..];
    }

    private static string Indent(SectionSyntax? old)
    {
        var line = old?.Lines.Select(l => l.Line).FirstOrDefault(l => l.Keyword.Text is not [>= 'A' and <= 'G', ..]) ?? old?.AnchorLines.FirstOrDefault();
        return line is null ? "" : line.Text[line.Whole.Start..line.Keyword.Start].Replace("\uFEFF", "");
    }

    private List<Anchor> AnchorsOf(NewSection section) =>
        [.. Ties().Where(t => IsIn(section, t.At)).DistinctBy(t => t.At).Select(t => AnchorAt(section, t.At, t.Anchor))];

    private bool IsIn(NewSection section, Beats at) =>
        at >= plan.Bars[section.First].Start && (section.End < plan.Bars.Count ? at < plan.Bars[section.End].Start : at <= plan.Bars[^1].End);

    private Anchor AnchorAt(NewSection section, Beats at, Anchor anchor)
    {
        if (at == plan.Bars[^1].End)
            return anchor with { Bar = section.End - section.First + 1, Beat = Beats.Zero };
        var bar = plan.BarAt(at);
        return anchor with { Bar = bar - section.First + 1, Beat = change.Level.Of(at - plan.Bars[bar].Start) };
    }

    /// <summary>The song's anchors on the old line; without any the start of its first bar is at 0, which needs saying where no bar starts there.</summary>
    private IEnumerable<(Beats At, Anchor Anchor)> Ties()
    {
        var (ties, start) = (SaidTies(), plan.Bars[0].Start);
        if (ties is [{ Anchor.Standing.Kind: StandingKind.Assumed } only] && Math.Abs(only.Anchor.At.Value - Lasting(only.At - start)) < 1e-5)
            return [];
        if (ties.Count > 0 || start == Beats.Zero)
            return ties;
        var at = start > Beats.Zero ? start : Beats.Zero;
        return [(at, new(1, new SongClock(song).TimeOf(1, at)) { Standing = Standing.Assumed })];
    }

    /// <summary>How long beats last at the song's tempo, in seconds.</summary>
    private double Lasting(Beats beats) => 60 / song.Tempo.Value * beats.Numerator / beats.Denominator;

    private List<(Beats At, Anchor Anchor)> SaidTies() => [.. song.Sections.SelectMany((s, i) => s.Anchors.Select(a => (line.StartOf(i, a.Bar) + a.Beat, a)))];

    private void WriteKeys(StringBuilder text, NewSection section, SectionSyntax old, NewSection? like, string indent)
    {
        if (border is not null && like is null)
        {
            foreach (var key in KeysOfBars(section))
                WriteKey(text, key, indent);
            return;
        }
        var index = section.Old!.Value;
        var changes = like is not null || old.Like is null ? old.Keys.Select(k => new KeyChange(k.FromBar, k.Key) { Standing = k.Standing }) : KeysOf(old);
        var placed = changes.OrderBy(k => k.Bar).Select(k => (Key: k, At: line.StartOf(index, k.Bar) + change.Later))
            .Select(k => (k.Key, k.At, Bar: Math.Clamp(plan.NearestLine(k.At), section.First, section.End - 1)));
        foreach (var (key, at, bar) in placed.GroupBy(k => k.Bar).Select(g => g.Last()))
        {
            WriteKey(text, key with { Bar = bar - section.First + 1 }, indent);
            if (plan.Bars[bar].Start != at)
                remarks.Add($"{old.Name}: the key {key.Key} starts {Apart(plan.Bars[bar].Start - at)}, at the nearest bar line.");
        }
    }

    private static void WriteKey(StringBuilder text, KeyChange key, string indent) =>
        text.Append(indent).Append($"{"key",-10} {KeyText.Write(key.Key, key.Bar)}  {StandingText.Write(key.Standing)}".TrimEnd()).Append('\n');

    /// <summary>The changes that leave each bar of a section in the key that it had, where only a border moves; as the file names keys.</summary>
    private IEnumerable<KeyChange> KeysOfBars(NewSection section)
    {
        var had = Syntax.Sections.SelectMany(s => Enumerable.Range(1, s.BarCount).Select(s.KeyOf)).ToArray();
        var usual = document.Written(song.Key.Value);
        var now = usual;
        for (var bar = section.First; bar < section.End; bar++)
        {
            var key = had[bar]?.Key ?? usual;
            if (key != now)
                yield return new(bar - section.First + 1, key) { Standing = had[bar]?.Standing ?? song.Key.Standing };
            now = key;
        }
    }

    /// <summary>Every change of key of a section that took some over, as the file names keys.</summary>
    private static IEnumerable<KeyChange> KeysOf(SectionSyntax old) =>
        Enumerable.Range(1, old.BarCount).Where(b => old.KeyOf(b) is { } key && (b == 1 || key != old.KeyOf(b - 1)))
            .Select(b => new KeyChange(b, old.KeyOf(b)!.Key) { Standing = old.KeyOf(b)!.Standing });

    private void Remark(NewSection section, SectionSyntax? old)
    {
        if (old is null)
            return;
        var at = line.SectionStarts[section.Old!.Value] + (section.Old == 0 ? Beats.Zero : change.Later);
        var off = plan.Bars[section.First].Start - at;
        if (section.Old > 0 && off != Beats.Zero)
            remarks.Add($"{old.Name} starts {Apart(off)}, at the nearest bar line.");
        var usual = change.MeterFrom(song.Meter.Value);
        foreach (var bar in Enumerable.Range(section.First, section.End - section.First).Where(b => plan.Bars[b].Meter != usual))
            remarks.Add($"{old.Name}: its bar {bar - section.First + 1} is {plan.Bars[bar].Meter}.");
    }

    private string Apart(Beats old)
    {
        var beats = change.Level.Of(old);
        var later = beats > Beats.Zero;
        return $"{(later ? beats : beats * -1)} {(beats == Beats.Whole(1) || beats == Beats.Whole(-1) ? "beat" : "beats")} {(later ? "later" : "earlier")}";
    }

    private string Free(string name)
    {
        var taken = Syntax.Sections.Select(s => s.Name).ToHashSet();
        return Enumerable.Range(1, 99).Select(i => i == 1 ? name : $"{name} {i}").First(n => !taken.Contains(n));
    }

    /// <summary>Tempo and meter as they are now. What the person asked for is decided; a correction keeps its note.</summary>
    private string WithFacts(string text)
    {
        var fresh = SongText.Parse(text, document.FileName);
        if (change.Level != TempoLevel.Same)
            fresh = fresh.WithFact(SongFact.Tempo, (song.Tempo.Value * change.Level.Ratio).ToString("0.##########", CultureInfo.InvariantCulture),
                Decided(song.Tempo.Standing));
        if (change.MeterFrom(song.Meter.Value) is var meter && meter != song.Meter.Value)
            fresh = fresh.WithFact(SongFact.Meter, meter.ToString(), Decided(song.Meter.Standing));
        return fresh.Text;
    }

    private static Standing? Decided(Standing standing) => standing.Kind is StandingKind.Heard or StandingKind.Assumed ? Standing.Decided : null;
}
