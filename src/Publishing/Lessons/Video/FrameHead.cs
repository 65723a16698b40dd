using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>The top of a frame: the form as a ruler along the edge, the place in it, the song and how it is tuned.</summary>
internal sealed class FrameHead(LessonTimeline timeline, double length)
{
    public const double RulerHeight = 12;
    private const double LeftRoom = 780;
    private const double RightRoom = 980;

    /// <summary>A hand-out keeps the song's numbers: "9 to 12"; a whole song is "all 30".</summary>
    private string AllBars
    {
        get
        {
            var (first, last) = (timeline.Bars[0].Bar.Number, timeline.Bars[^1].Bar.Number);
            var from = first == 1 ? "all" : string.Create(CultureInfo.InvariantCulture, $"{first} to");
            return string.Create(CultureInfo.InvariantCulture, $"{from} {last}");
        }
    }

    /// <summary>Where a section's length on the ruler begins and ends up to a time.</summary>
    public Box Ruler(Timed<string> section, double until) =>
        new(X(section.Start) + 1.5, 0, Math.Max(X(section.Start) + 1.5, X(Math.Min(section.End, until)) - 1.5), RulerHeight);

    public void Draw(Sketch sketch, ScreenMoment moment)
    {
        foreach (var section in timeline.Sections)
            sketch.Fill(Ruler(section, length), Tint.Faint);
        if (!timeline.Bars.IsEmpty)
            DrawPlace(sketch, moment);
        var right = Screen.Width - Screen.Edge;
        sketch.Text(TextWrap.Cut(timeline.Song.Title, Face.Strong, 30, RightRoom), right, 56, Face.Strong, 30, Tint.Quiet, Align.Right);
        sketch.Text(TextWrap.Cut(Facts(timeline.Song), Face.Text, 26, RightRoom), right, 92, Face.Text, 26, Tint.Quiet, Align.Right);
    }

    private void DrawPlace(Sketch sketch, ScreenMoment moment)
    {
        var bar = timeline.Bars[Math.Max(0, moment.Bar)];
        var place = moment.IsOver ? "" : moment.Bar < 0 ? "comes first"
            : !timeline.IsPractice ? $"bar {bar.Name} of {AllBars}" : char.IsAsciiDigit(bar.Name[0]) ? $"bar {bar.Name}" : bar.Name;
        var room = LeftRoom - FontBook.Width(place, Face.Text, 30) - 28;
        var section = TextWrap.Cut(timeline.Song.Sections[bar.SectionIndex].Name, Face.Strong, 44, room);
        var end = Screen.Edge + sketch.Text(section, Screen.Edge, 78, Face.Strong, 44);
        sketch.Text(place, end + 28, 78, Face.Text, 30, Tint.Quiet);
    }

    private static string Facts(Song song)
    {
        var capo = song.Capo.Value.Fret == 0 ? "no capo" : $"capo {song.Capo.Value.Describe(song.Tuning.Value)}";
        var harmonica = song.Harp is { } h ? $"  ·  harp in {PitchText.Of(h.Value)}" : "";
        var pitch = SongFacts.HasReference(song) ? $"  ·  {SongFacts.Reference(song.ReferencePitch.Value)}" : "";
        return $"{Strings(song)}  ·  {capo}{harmonica}{pitch}";
    }

    internal static string Strings(Song song) => string.Join(' ', song.Tuning.Value.Strings.Select(p => PitchText.Of(p.Name)));

    private double X(double seconds) => Math.Clamp(seconds / Math.Max(length, 0.001), 0, 1) * Screen.Width;
}
