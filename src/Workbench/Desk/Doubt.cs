using System.Collections.Immutable;
using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Workbench.Desk;

/// <summary>A claim that the recording doesn't support, and how it can be answered.</summary>
/// <param name="Standing">How the claim stands now; null where a song file keeps no standing of its own for it.</param>
/// <param name="Defended">Puts another standing behind the claim; null where there is none to put.</param>
public sealed record Doubt(Finding Finding, Standing? Standing, Func<SongDocument, Standing, SongDocument>? Defended)
{
    /// <summary>Whether a person has said why it stands all the same.</summary>
    public bool IsAnswered => Standing is { Kind: StandingKind.Decided or StandingKind.Corrected, Why.Length: > 0 };

    /// <summary>Doubtful and contradicted claims that nobody has defended, the most doubtful first.</summary>
    public static ImmutableArray<Doubt> Left(CheckResult result, Song song) =>
        [.. result.MostDoubtfulFirst.Where(f => f.Verdict != Verdict.Supported).Select(f => Of(f, song)).Where(d => !d.IsAnswered)];

    private static Doubt Of(Finding finding, Song song) => finding.Kind switch
    {
        ClaimKind.Pitch => OfFact(finding, SongFact.Pitch, song.ReferencePitch.Standing),
        ClaimKind.Tuning => OfFact(finding, SongFact.Tuning, song.Tuning.Standing),
        ClaimKind.Meter => OfFact(finding, SongFact.Meter, song.Meter.Standing),
        ClaimKind.Tempo => OfFact(finding, SongFact.Tempo, song.Tempo.Standing),
        ClaimKind.Key when finding.Where is null => OfFact(finding, SongFact.Key, song.Key.Standing),
        ClaimKind.Harp => OfFact(finding, SongFact.Harp, song.Harp?.Standing),
        ClaimKind.Chord => OfChord(finding, song),
        ClaimKind.Shape => OfShape(finding, song),
        ClaimKind.Bar => OfBar(finding, song),
        _ => new(finding, null, null),
    };

    /// <summary>A fact that the file doesn't say has no line for a standing.</summary>
    private static Doubt OfFact(Finding finding, SongFact fact, Standing? standing) =>
        standing is null or { Kind: StandingKind.Assumed } ? new(finding, standing, null) : new(finding, standing, (d, s) => d.WithFactStanding(fact, s));

    private static Doubt OfChord(Finding finding, Song song)
    {
        var chord = BarOf(finding, song)?.Chords.LastOrDefault(c => c.Start.Value <= finding.Where!.Beat - 1 + 1e-6);
        return chord is null ? new(finding, null, null)
            : new(finding, chord.Standing, (d, s) => d.WithChord(finding.Where!.Bar!.Value, chord.Start, chord.Value.Name, s));
    }

    private static Doubt OfShape(Finding finding, Song song)
    {
        var name = BarOf(finding, song)?.Chords.LastOrDefault(c => c.Start.Value <= finding.Where!.Beat - 1 + 1e-6)?.Value.Name;
        var shape = song.Shapes.FirstOrDefault(s => s.Name == name);
        return shape is null ? new(finding, null, null) : new(finding, shape.Standing, (d, s) => d.WithShapeStanding(shape.Name, s));
    }

    private static Doubt OfBar(Finding finding, Song song)
    {
        if (finding.Where?.Bar is not { } number)
            return new(finding, null, null);
        var first = 1;
        for (var i = 0; i < song.Sections.Length; first += song.Sections[i].Bars.Length, i++)
        {
            var own = number - first + 1;
            if (own <= song.Sections[i].Bars.Length)
            {
                var anchor = song.Sections[i].Anchors.FirstOrDefault(a => a.Bar == own && a.Beat == Beats.Zero);
                return new(finding, anchor?.Standing, (d, s) => d.WithAnchor(i, own, finding.Where.Time, s));
            }
        }
        return new(finding, null, null);
    }

    private static Bar? BarOf(Finding finding, Song song) => finding.Where?.Bar is { } bar ? song.Bars.ElementAtOrDefault(bar - 1) : null;
}
