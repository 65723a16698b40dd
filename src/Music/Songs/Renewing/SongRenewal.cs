using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;

namespace Harkbook.Music.Songs.Renewing;

/// <summary>A song with what is heard now in place of what was only heard before.</summary>
/// <param name="Changes">What changed, in words.</param>
/// <param name="Replaced">Whether what the person tells now replaced something that was decided.</param>
public sealed record Renewed(SongDocument Document, ImmutableArray<string> Changes, bool Replaced)
{
    /// <summary>The shapes that contradict their chords now and didn't before.</summary>
    public ImmutableArray<Diagnostic> NewContradictions { get; init; } = [];
}

/// <summary>
/// Puts a new proposal under what a person decided: facts, shapes and chords that still stand as heard are replaced, and everything else stays
/// as it is, bytes and all, unless it is what the person tells now. Where nothing in the bars was touched, not even by a comment, the
/// proposal's bars replace them whole.
/// </summary>
public sealed class SongRenewal
{
    private readonly SongDocument before;
    private readonly Song heard;
    private readonly ImmutableArray<SongFact> told;
    private readonly List<string> changes = [];
    private SongDocument document;
    private bool replaced;

    private SongRenewal(SongDocument document, Song heard, ImmutableArray<SongFact> told) =>
        (before, this.document, this.heard, this.told) = (document, document, heard, told);

    private Song Mine => document.Song!;

    /// <param name="told">Which of the tuning and the capo the person tells now.</param>
    /// <exception cref="RenewalException">What the person decided can't stand beside it.</exception>
    public static Renewed Of(SongDocument document, Song heard, params ImmutableArray<SongFact> told)
    {
        var renewal = new SongRenewal(document, heard, told);
        renewal.Renew();
        var known = Contradictions(document).Select(d => d.Message).ToHashSet();
        return new(renewal.document, [.. renewal.changes],
            renewal.replaced) { NewContradictions = [.. Contradictions(renewal.document).Where(d => !known.Contains(d.Message))] };
    }

    private static IEnumerable<Diagnostic> Contradictions(SongDocument document) => document.Diagnostics.Where(d => d.Code == DiagnosticCode.ShapeContradicts);

    private void Renew()
    {
        var whole = IsUntouched();
        var fresh = SongText.Parse(SongText.Write(heard), document.FileName);
        if (!whole)
            RenewTab(fresh);
        SongFact[] facts = [SongFact.Pitch, SongFact.Tuning, SongFact.Capo, SongFact.Key, SongFact.Tune, SongFact.Harp];
        foreach (var fact in whole ? [.. facts, SongFact.Meter, SongFact.Tempo] : facts)
            RenewFact(fact, fresh);
        if (!whole)
            RequireFit();
        RenewShapes();
        if (whole)
            RenewSections(fresh);
        else
            RenewChords();
        RequireFit();
    }

    /// <summary>Tab that is only heard is heard anew where the strings are others now.</summary>
    private void RenewTab(SongDocument fresh)
    {
        var isTold = told.Contains(SongFact.Tuning);
        if (heard.Tuning.Value.Equals(Mine.Tuning.Value) || !(isTold || Mine.Tuning.Standing.Kind == StandingKind.Heard))
            return;
        var (tab, gone) = HeardTab.Renew(document, fresh);
        if (tab.Text == document.Text)
            return;
        changes.Add("the tab that was only heard");
        if (gone.Length > 0)
            changes.Add($"no tab in {string.Join(", ", gone)}, where it was only heard, on the strings before");
        document = tab;
    }

    /// <summary>A fact that is heard, or that the person tells now.</summary>
    private void RenewFact(SongFact fact, SongDocument fresh)
    {
        if (!fresh.Syntax.Facts.TryGetValue(fact, out var line))
            return;
        var (word, isTold) = (fact.ToString().ToLowerInvariant(), told.Contains(fact));
        var now = StandingOf(line, fresh.Syntax);
        if (!document.Syntax.Facts.TryGetValue(fact, out var old))
        {
            if (isTold && !IsSame(fact, line, null))
                Put($"{word} {line.BodyText}, told now");
            return;
        }
        var (was, same) = (StandingOf(old, document.Syntax), IsSame(fact, line, old));
        var wasHeard = was.Kind == StandingKind.Heard;
        if (isTold ? same && !wasHeard : !wasHeard || (same && (now == was || now.Kind == StandingKind.Decided)))
            return;
        now = isTold || now.Kind == StandingKind.Heard ? now : Standing.Heard(null);
        replaced |= !wasHeard;
        if (same)
            document = document.WithFactStanding(fact, now);
        else
            Put($"{word} {line.BodyText}{(isTold ? ", told now" : "")}{(wasHeard ? "" : $", in place of {old.BodyText}, which was decided")}");

        void Put(string change)
        {
            changes.Add(change);
            document = document.WithFact(fact, line.BodyText, now);
        }
    }

    /// <summary>Whether a line says what the song has: a tuning may have a name.</summary>
    private bool IsSame(SongFact fact, LineSyntax line, LineSyntax? old) => fact switch
    {
        SongFact.Tuning => heard.Tuning.Value.Equals(before.Song!.Tuning.Value),
        SongFact.Capo => heard.Capo.Value.Equals(before.Song!.Capo.Value),
        _ => old is not null && line.Words().Select(w => w.Text).SequenceEqual(old.Words().Select(w => w.Text)),
    };

    /// <summary>Nothing is written over what can't stand beside it; the line is the file's as it stands.</summary>
    private void RequireFit()
    {
        if (document.Song is not null)
            return;
        var added = document.Syntax.Lines.Count() - before.Syntax.Lines.Count();
        var mistakes = document.Diagnostics.Where(d => d.Severity == Severity.Error).ToList();
        var strings = mistakes.Where(d => d.Code == DiagnosticCode.UnknownString).ToList();
        var orElse = told.Contains(SongFact.Tuning) ? "leave --tuning out" : "take ~heard from the tuning line if that tuning is right";
        throw strings is [var first, ..]
            ? new RenewalException(first.Line - added,
                $"{first.Message} This line{(strings.Count > 1 ? $", and {strings.Count - 1} more like it," : "")} belongs to the tuning before, "
                    + $"{before.Song!.Tuning.Value}.",
                $"Write what is picked for the new tuning, or put ; before those lines; or {orElse}.")
            : new RenewalException(mistakes[0].Line - added, mistakes[0].Message,
                $"Change that line{(told.IsEmpty ? "" : ", or leave --tuning and --capo out")}.");
    }

    private static Standing StandingOf(LineSyntax line, SongSyntax syntax) => new StandingReader(new(syntax.Source, "")).ReadOne(line, Standing.Decided);

    private void RenewShapes()
    {
        foreach (var shape in heard.Shapes)
        {
            var own = document.Syntax.Shapes.Where(l => l.Words() is { Length: > 0 } words && NamedShape.SymbolOf(words[0].Text) == shape.Name).ToList();
            if (own.Count > 1 || (own.Count == 1 && (own[0].Words()[0].Text != shape.Name || StandingOf(own[0], document.Syntax).Kind != StandingKind.Heard)))
                continue;
            var before = Mine is null ? null : Mine.Shapes.FirstOrDefault(s => s.Name == shape.Name);
            if (before == shape)
                continue;
            if (before?.Shape != shape.Shape)
                changes.Add($"shape {shape.Name} {shape.Shape}");
            document = document.WithShape(shape.Name, shape.Shape, shape.Standing);
        }
    }

    /// <summary>A heard chord becomes what is heard there now for the longest time.</summary>
    private void RenewChords()
    {
        if (Mine is null)
            return;
        var (mine, theirs) = (new SongClock(Mine), new SongClock(heard));
        var now = heard.Bars.SelectMany(b =>
            b.Chords.Select(c => (c.Value.Name, c.Standing, From: theirs.TimeOf(b.Number, c.Start).Value, To: theirs.TimeOf(b.Number, c.Start
            + c.Length).Value))).ToList();
        foreach (var (bar, claim) in Mine.Bars.SelectMany(b => b.Chords.Where(c => c.Standing.Kind == StandingKind.Heard).Select(c => (b, c))).ToList())
        {
            var (from, to) = (mine.TimeOf(bar.Number, claim.Start).Value, mine.TimeOf(bar.Number, claim.Start + claim.Length).Value);
            var best = now.Select(n => (n.Name, n.Standing, Shared: Math.Min(to, n.To) - Math.Max(from, n.From))).Where(n => n.Shared > 0)
                .GroupBy(n => n.Name).OrderByDescending(g => g.Sum(n => n.Shared)).FirstOrDefault()?.MaxBy(n => n.Shared);
            if (best is not { } chord || chord.Name == NamedShape.SymbolOf(claim.Value.Name))
                continue;
            changes.Add($"bar {bar.Number}: {chord.Name}, not {claim.Value.Name}");
            document = document.WithChord(bar.Number, claim.Start, chord.Name, chord.Standing);
        }
    }

    private void RenewSections(SongDocument fresh)
    {
        var (mine, theirs) = (From(document), From(fresh));
        if (mine.Text != theirs.Text)
            changes.Add("bars");
        document = SongText.Parse(document.Text[..mine.At] + theirs.Text.ReplaceLineEndings(document.Syntax.Source.NewLine), document.FileName);
    }

    private static (int At, string Text) From(SongDocument document)
    {
        var at = document.Syntax.Sections.Count == 0 ? document.Text.Length : document.Syntax.Sections[0].Header.Whole.Start;
        return (at, document.Text[at..]);
    }

    /// <summary>Whether all from the first section on, and the beats that it is counted in, stand as they were heard.</summary>
    private bool IsUntouched() =>
        Mine.Meter.Standing.Kind == StandingKind.Heard && Mine.Tempo.Standing.Kind == StandingKind.Heard
        && Mine.Sections.All(s => s.Standing.Kind == StandingKind.Heard && s.Anchors.All(a => a.Standing.Kind == StandingKind.Heard)
            && s.Keys.All(k => k.Standing.Kind == StandingKind.Heard))
        && Mine.Bars.SelectMany(Standings).All(s => s.Kind == StandingKind.Heard)
        && document.Syntax.Lines.SkipWhile(l => l.Keyword.Text != "section").All(l => l.CodeEnd >= l.Whole.End
            || string.IsNullOrWhiteSpace(l.Text[l.CodeEnd..l.Whole.End]));

    private static IEnumerable<Standing> Standings(Bar bar) =>
        [.. bar.Chords.Select(c => c.Standing), .. bar.Sung.Select(c => c.Standing), .. bar.Tune.Select(c => c.Standing), .. bar.Harp.Select(c => c.Standing),
            .. bar.Picked.Select(c => c.Standing), .. bar.Strums.Select(c => c.Standing)];
}
