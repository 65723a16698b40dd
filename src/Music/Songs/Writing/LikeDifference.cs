using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Songs.Writing;

/// <summary>
/// In what a section differs from an earlier one with as many bars in the same meters and keys: a part whose bars are mostly the same gives only the
/// others, any other part is given whole.
/// </summary>
internal sealed class LikeDifference
{
    private readonly Dictionary<SongPart, ImmutableArray<int>> bars = [];

    private LikeDifference(Section section, Section source, Tuning tuning)
    {
        foreach (var part in Enum.GetValues<SongPart>())
        {
            var (own, theirs) = (VoicesOf(section, part, tuning), VoicesOf(source, part, tuning));
            ImmutableArray<int> others = [.. Enumerable.Range(1, section.Bars.Length).Where(bar => own.Zip(theirs).Any(v => !v.First.IsAs(v.Second, bar)))];
            if (others.Length > 0)
                bars[part] = others;
            if (others.Length <= section.Bars.Length / 2 && theirs.Any(v => Enumerable.Range(1, section.Bars.Length).Any(v.Needs)))
                Shared++;
            Stops |= others.Length > 0 && !Sounds(own, section) && Sounds(theirs, source);
        }
    }

    /// <summary>How many parts are taken over, their differences aside.</summary>
    public int Shared { get; }

    /// <summary>How many bars are given anew, part by part.</summary>
    public int Bars => bars.Values.Sum(b => b.Length);

    /// <summary>Whether a part that the other has is missing.</summary>
    public bool Stops { get; }

    /// <summary>Null where the section can't be said by the other's bars.</summary>
    public static LikeDifference? Of(Section section, Section source, Tuning tuning)
    {
        if (section.Bars.IsEmpty || !section.Bars.Select(b => b.Meter).SequenceEqual(source.Bars.Select(b => b.Meter))
            || !section.Keys.AsSpan().SequenceEqual(source.Keys.AsSpan()) || section.TunePlayer != source.TunePlayer)
            return null;
        var found = new LikeDifference(section, source, tuning);
        return found.Stops || found.Shared == 0 ? null : found;
    }

    /// <summary>The bars of a part that differ, rising; none where it is the same.</summary>
    public ImmutableArray<int> Of(SongPart part) => bars.GetValueOrDefault(part, []);

    private static bool Sounds(VoiceScript[] voices, Section section) => voices.Any(v => Enumerable.Range(1, section.Bars.Length).Any(v.Needs));

    private static VoiceScript[] VoicesOf(Section section, SongPart part, Tuning tuning)
    {
        var scripts = part == SongPart.Pick ? Enumerable.Range(0, tuning.Count).Select(s => SectionScript.OfString(section.Bars, s))
            : [SectionScript.Of(section.Bars, part)];
        return [.. scripts.Select(s => s ?? new VoiceScript(section.Bars, []))];
    }
}
