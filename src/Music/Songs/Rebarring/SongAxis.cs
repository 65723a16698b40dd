using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Rebarring;

/// <summary>What starts on the axis of beats: a value as written, or "_" where what sounded ends.</summary>
/// <param name="Restates">A chord said again at its bar's start, though it went on.</param>
/// <param name="Written">False for an end that the file doesn't write, such as a section's.</param>
internal sealed record BeatEvent(Beats At, string Text, Standing Standing, bool Restates = false, bool Written = true)
{
    public bool Silences => Text == "_";
}

/// <summary>A bar as it stands, on the axis of beats that runs through the song.</summary>
internal sealed record OldBar(Beats Start, Meter Meter, int Section)
{
    public Beats End => Start + Meter.BarLength;
}

/// <summary>A stretch in which a part has bars.</summary>
/// <param name="IsOwn">Whether its section writes them itself rather than taking them over.</param>
/// <param name="Cells">How many cells its bar is written in.</param>
internal sealed record Covered(Beats Start, Beats End, bool IsOwn, int Cells);

/// <summary>A song's lines laid on one axis of beats, values as they are written.</summary>
internal sealed class SongAxis
{
    private readonly Dictionary<Voice, List<BeatEvent>> events = [];
    private readonly Dictionary<SongPart, List<Covered>> covered = [];

    public SongAxis(SongSyntax syntax, Meter songMeter)
    {
        var bars = ImmutableArray.CreateBuilder<OldBar>();
        var at = Beats.Zero;
        foreach (var (section, index) in syntax.Sections.Select((s, i) => (s, i)))
        {
            SectionStarts.Add(at);
            for (var bar = 1; bar <= section.BarCount; bar++)
            {
                bars.Add(new(at, section.MeterOf(bar, songMeter), index));
                at = bars[^1].End;
            }
        }
        SectionStarts.Add(at);
        Bars = bars.ToImmutable();
        for (var i = 0; i < syntax.Sections.Count; i++)
            ReadSection(syntax.Sections[i], i);
    }

    public ImmutableArray<OldBar> Bars { get; }

    /// <summary>Where each section starts, and at last where the song ends.</summary>
    public List<Beats> SectionStarts { get; } = [];

    public Beats End => SectionStarts[^1];

    public IReadOnlyDictionary<Voice, List<BeatEvent>> Events => events;

    public IReadOnlyList<Covered> CoveredBy(SongPart part) => covered.TryGetValue(part, out var found) ? found : [];

    /// <summary>Where a bar of a section starts (1 = its first); its end where there are no more.</summary>
    public Beats StartOf(int section, int bar)
    {
        var own = Bars.Where(b => b.Section == section).ElementAtOrDefault(bar - 1);
        return own?.Start ?? SectionStarts[section + 1];
    }

    private void ReadSection(SectionSyntax section, int index)
    {
        var bars = Bars.Where(b => b.Section == index).ToList();
        Meter MeterOf(int bar) => bars[Math.Clamp(bar, 1, bars.Count) - 1].Meter;
        foreach (var voice in bars.Count == 0 ? [] : section.Voices())
        {
            var written = section.BarsOf(voice);
            Walk(voice, PickedBars.Placed(section, voice, MeterOf), bars);
            var part = Of(covered, voice.Part);
            part.AddRange(written.OrderBy(w => w.Key).Where(w => w.Key <= bars.Count)
                .Select(w => new Covered(bars[w.Key - 1].Start, bars[w.Key - 1].End, section.Lines.Contains(w.Value.Line),
                    CellsOf(w.Value.Line, w.Value.Bar, w.Key, MeterOf))));
        }
    }

    /// <summary>A pattern that a shorter bar cuts off says nothing about its cells.</summary>
    private static int CellsOf(PartLine line, BarSyntax written, int bar, Func<int, Meter> meterOf) =>
        line.MeterAt(bar, meterOf).BarLength == meterOf(bar).BarLength ? written.Cells : 0;

    private void Walk(Voice voice, Dictionary<int, ImmutableArray<PlacedLeaf>> written, List<OldBar> bars)
    {
        var (found, open, since) = (Of(events, voice), (BeatEvent?)null, 0);
        if (GoesOnOverTheBorder())
        {
            found.RemoveAt(found.Count - 1);
            open = found[^1];
        }
        for (var bar = 1; bar <= bars.Count; bar++)
        {
            var start = bars[bar - 1].Start;
            var has = written.TryGetValue(bar, out var there);
            if (!has || (voice.Part != SongPart.Chords && bar - since > Claim<string>.LongestHold))
                Close(start);
            foreach (var (inBar, leaf, line) in has ? there : [])
            {
                Take(leaf, start + inBar, leaf.Silences ? Standing.Decided : line.StandingOf(leaf, bar, inBar), inBar == Beats.Zero);
                since = bar;
            }
        }
        Close(bars.Count == 0 ? Beats.Zero : bars[^1].End);

        void Take(Leaf leaf, Beats at, Standing standing, bool startsBar)
        {
            var before = open ?? EndingAt(at);
            var restates = voice.Part == SongPart.Chords && startsBar && before?.Text == leaf.Unmarked && before.Standing == standing;
            found.Add(new(at, leaf.Silences ? "_" : leaf.Unmarked, standing, restates));
            open = leaf.Silences ? null : found[^1];
        }

        // A section's end cuts what rings; where the next goes on without a sign, the cut is the new border's to make.
        bool GoesOnOverTheBorder() => voice.Part != SongPart.Chords && written.TryGetValue(1, out var first)
            && (first.IsEmpty || first[0].Start > Beats.Zero) && EndingAt(bars[0].Start) is not null;

        // What sounded up to the border of two sections.
        BeatEvent? EndingAt(Beats at) => found is [.., { Silences: false } last, { Silences: true, Written: false } close] && close.At == at ? last : null;

        void Close(Beats at)
        {
            if (open is not null)
                found.Add(new(at, "_", Standing.Decided, Written: false));
            open = null;
        }
    }

    private static List<T> Of<TKey, T>(Dictionary<TKey, List<T>> lists, TKey key)
        where TKey : notnull
    {
        if (!lists.TryGetValue(key, out var list))
            lists[key] = list = [];
        return list;
    }
}
