using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>An anchor and where its time stands in the file.</summary>
internal sealed record AnchorSyntax(Anchor Anchor, Span BarAt, Span TimeAt);

/// <summary>Reads "anchors 1 = 0:02.315 5 beat 3 = 0:12.402", section by section, and checks that places and times rise through the song.</summary>
internal sealed partial class AnchorReader(DiagnosticBag bag, StandingReader standings, Seconds? recordingLength, Meter songMeter = default)
{
    private (int Bar, Beats Beat, double Time) last = (int.MinValue, Beats.Zero, double.NegativeInfinity);

    public ImmutableArray<Anchor> Read(SectionSyntax section, int firstNumber)
    {
        var kept = ImmutableArray.CreateBuilder<Anchor>();
        foreach (var anchor in section.AnchorLines.SelectMany(l => ReadLine(l)))
        {
            if (IsInside(anchor, section) && Rises(anchor, firstNumber - 1 + anchor.Anchor.Bar, kept.Count > 0))
                kept.Add(anchor.Anchor);
        }
        return kept.ToImmutable();
    }

    /// <summary>The anchors of a line, in the order written.</summary>
    public IEnumerable<AnchorSyntax> ReadLine(LineSyntax line)
    {
        var entries = standings.ReadAll(line);
        var body = line.BodyText;
        if (body.Length == 0)
            bag.Add(DiagnosticCode.MissingValue, line.Keyword.Span,
                "Anchors are bars of the section and their times in the recording, as in anchors 1 = 0:02.315 5 = 0:12.402.");
        for (var at = 0; at < body.Length;)
        {
            var match = OneAnchor().Match(body, at);
            if (match.Success && ReadAnchor(match, line, entries) is { } anchor)
                yield return anchor;
            else
                Refuse(line, at);
            at += match.Success ? match.Length : Math.Max(1, WordLength(body, at));
            while (at < body.Length && char.IsWhiteSpace(body[at]))
                at++;
        }
    }

    private static AnchorSyntax? ReadAnchor(Match match, LineSyntax line, ImmutableArray<StandingEntry> entries)
    {
        var beat = Beats.Zero;
        if (!TimeText.TryRead(match.Groups[3].Value, out var time) || (match.Groups[2].Success && !BeatText.TryRead(match.Groups[2].Value, out beat)))
            return null;
        var bar = int.Parse(match.Groups[1].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture);
        var mark = match.Groups[4].Value;
        var marked = mark.Length == 0 ? null : Standing.Heard(StandingReader.TryReadPercent(mark[1..], out var confidence) ? confidence : null);
        var standing = marked ?? (entries.LastOrDefault(e => e.Bar == bar && e.Beat == beat)
            ?? entries.LastOrDefault(e => e.Bar == bar && e.Beat is null))?.Standing ?? entries.FirstOrDefault(e =>
            e.Bar is null)?.Standing ?? Standing.Decided;
        return new(new Anchor(bar, time) { Beat = beat, Standing = standing }, Place(match.Groups[1], line), Place(match.Groups[3], line));
    }

    private void Refuse(LineSyntax line, int at)
    {
        var length = Math.Max(1, WordLength(line.BodyText, at));
        bag.Add(DiagnosticCode.BadAnchor, new(line.Body.Start + at, length),
            "An anchor is a bar of the section, perhaps a beat of it, = and its time in the recording, as in 5 = 0:12.402 or 5 beat 3 = 0:13.310.");
    }

    private bool IsInside(AnchorSyntax anchor, SectionSyntax section)
    {
        var count = section.BarCount;
        var inside = anchor.Anchor.Bar >= 1 && anchor.Anchor.Bar <= count + 1;
        if (!inside)
            bag.Add(DiagnosticCode.AnchorOutside, anchor.BarAt, $"The section has {count} bars, so an anchor stands at bar 1 to {count + 1} (its end).");
        return inside && (anchor.Anchor.Beat == Beats.Zero || IsInBar(anchor, section, count));
    }

    private bool IsInBar(AnchorSyntax anchor, SectionSyntax section, int count)
    {
        var beats = anchor.Anchor.Bar > count ? 0 : section.MeterOf(anchor.Anchor.Bar, songMeter).BeatsPerBar;
        var inside = anchor.Anchor.Beat < Beats.Whole(beats);
        if (!inside)
            bag.Add(DiagnosticCode.AnchorOutside, anchor.BarAt, beats == 0 ? "The section ends here, so its end has no beats."
                : $"Bar {anchor.Anchor.Bar} has {beats} beats.");
        return inside;
    }

    private bool Rises(AnchorSyntax anchor, int bar, bool sameSection)
    {
        var time = anchor.Anchor.At.Value;
        var beat = anchor.Anchor.Beat;
        var later = bar > last.Bar || (bar == last.Bar && beat > last.Beat);
        var same = bar == last.Bar && beat == last.Beat && !sameSection && time == last.Time;
        var rises = same || (later && time > last.Time);
        if (!rises)
            bag.Add(DiagnosticCode.AnchorNotRising, later ? anchor.TimeAt : anchor.BarAt,
                later || !sameSection ? $"Times rise through the song, and the anchor before this one is at {TimeText.Write(Seconds.FromSeconds(last.Time))}."
                    : "Anchors stand in the order of their bars and beats, each once.");
        else if (recordingLength is { } length && time > length.Value)
            bag.Add(DiagnosticCode.AnchorPastEnd, anchor.TimeAt, $"The recording ends at {TimeText.Write(length)}.");
        if (rises)
            last = (bar, beat, time);
        return rises;
    }

    private static Span Place(Group group, LineSyntax line) => new(line.Body.Start + group.Index, group.Length);

    private static int WordLength(string body, int at) => body.AsSpan(at).IndexOfAny(" \t") is var end && end < 0 ? body.Length - at : end;

    [GeneratedRegex(@"\G(\d{1,5})(?:\s+beat\s+([\d+/]+))?\s*=\s*([\d:.]+)(\?\d{0,3})?(?=\s|$)", RegexOptions.CultureInvariant)]
    private static partial Regex OneAnchor();
}
