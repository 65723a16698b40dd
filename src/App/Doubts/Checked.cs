using Harkbook.Jobs;
using Harkbook.Jobs.Files;
using System.Collections.Immutable;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.App.Doubts;

/// <summary>A check with all that its pictures need.</summary>
/// <param name="Song">Null where an annotation was checked.</param>
/// <param name="Hearing">Null where there is no recording, and only what needs none was said.</param>
internal sealed record Checked(CheckResult Result, SongFolder? Song, Hearing? Hearing)
{
    public ImmutableArray<ClaimedSound> Claims { get; private init; } = [];

    public ImmutableArray<Seconds> Beats { get; private init; } = [];

    /// <param name="what">A song, or a recording and its claims.</param>
    public static Task<Checked> OfAsync(string[] what, CancellationToken ct) =>
        AnnotationFile.IsKnown(what[^1]) ? OfAnnotationAsync(what, ct) : OfSongAsync(what, ct);

    private static async Task<Checked> OfAnnotationAsync(string[] what, CancellationToken ct)
    {
        if (what.Length < 2)
            throw new UsageException($"{what[^1]}: which recording is this about? Name it first: harkbook check RECORDING {what[^1]}");
        var annotation = AnnotationFile.Read(what[^1]);
        var hearing = await WatchedEars.HearAsync(what[0], false, ct);
        return new(new Checker(hearing).Check(annotation), null, hearing)
        {
            Claims = [.. ClaimedSound.Of(annotation, hearing.ReferencePitch.Best)],
            Beats = [.. annotation.Beats.Select(b => Seconds.FromSeconds(b.Time))],
        };
    }

    private static async Task<Checked> OfSongAsync(string[] what, CancellationToken ct)
    {
        var opened = SongOpening.Open(what[^1]);
        var (song, document) = (opened.Song, SongChange.DocumentOf(opened));
        if (what.Length == 1 && opened.RecordingPath is null && !PaperCheck.Asked(song).IsEmpty)
            return new(SongCheck.Of(document, null), opened, null);
        var hearing = await WatchedEars.HearAsync(what.Length == 2 ? what[0] : opened.RequireRecording(), false, ct);
        opened.WarnOfAnother(hearing.Recording);
        var clock = new SongClock(song);
        return new(SongCheck.Of(document, new(hearing)), opened, hearing)
        {
            Claims = [.. ClaimedSound.Of(song)],
            Beats = [.. song.Bars.SelectMany(b => Enumerable.Range(0, b.Meter.BeatsPerBar).Select(i => clock.TimeOf(b.Number, Units.Beats.Whole(i))))],
        };
    }
}
