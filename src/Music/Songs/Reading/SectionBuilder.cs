using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Turns a section as written into bars of claims.</summary>
internal sealed class SectionBuilder(ValueReader values, Meter songMeter)
{
    public Section Build(SectionSyntax section, int firstNumber, ImmutableArray<Anchor> anchors)
    {
        var count = section.BarCount;
        Meter MeterOf(int bar) => section.MeterOf(bar, songMeter);
        List<Sounding> Walk(Voice voice) => new VoiceWalk(MeterOf, voice.Part == SongPart.Chords).Walk(section.BarsOf(voice), count);

        var voices = section.Voices().Where(v => v.Part != SongPart.Pick).ToLookup(v => v.Part, Walk);
        var chords = ByBar<ChordUse>(voices[SongPart.Chords].SelectMany(w => w), s => values.Chord(s.Leaf) is { } chord ? [chord] : []);
        var strums = ByBar<Stroke>(voices[SongPart.Strum].SelectMany(w => w), s => values.Stroke(s.Leaf) is { } stroke ? [stroke] : []);
        var sung = ByBar<string>(voices[SongPart.Sung].SelectMany(w => w), s => [s.Leaf.Value.Text]);
        var harp = ByBar<HarpNote>(voices[SongPart.Harp].SelectMany(w => w), s => values.Harp(s.Leaf) ?? []);
        var strings = section.Voices().Where(v => v.Part == SongPart.Pick);
        var picked = strings
            .SelectMany(v => Walk(v).Select(s => (s.Bar, Claim: values.Picked(s.Leaf, v.StringIndex) is { } note ? new Claim<PickedNote>(s.Start, s.Length, note, s.Standing) : null)))
            .Where(p => p.Claim is not null)
            .OrderBy(p => p.Claim!.Start).ThenBy(p => p.Claim!.Value.StringIndex)
            .ToLookup(p => p.Bar, p => p.Claim!);
        var bars = Enumerable.Range(1, count).Select(bar => new Bar
        {
            Number = firstNumber + bar - 1,
            Meter = MeterOf(bar),
            Chords = [.. chords[bar]],
            Strums = [.. strums[bar]],
            Sung = [.. sung[bar]],
            Harp = [.. harp[bar]],
            Picked = [.. picked[bar]],
        });
        return new(section.Name, anchors, [.. bars]) { Standing = section.Standing, Keys = [.. Keys(section, count)] };
    }

    private static IEnumerable<KeyChange> Keys(SectionSyntax section, int count)
    {
        var last = (KeyLine?)null;
        for (var bar = 1; bar <= count; bar++)
        {
            if (section.KeyOf(bar) is { } now && now != last)
                yield return new(bar, now.Key) { Standing = now.Standing };
            last = section.KeyOf(bar);
        }
    }

    private static ILookup<int, Claim<T>> ByBar<T>(IEnumerable<Sounding> sounding, Func<Sounding, ImmutableArray<T>> read) =>
        sounding.SelectMany(s => read(s).Select(value => (s.Bar, Claim: new Claim<T>(s.Start, s.Length, value, s.Standing)))).ToLookup(p => p.Bar, p => p.Claim);
}
