using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Turns a section as written into bars of claims.</summary>
internal sealed class SectionBuilder(ValueReader values, ShapeFrets frets, Meter songMeter)
{
    public Section Build(SectionSyntax section, int firstNumber, ImmutableArray<Anchor> anchors)
    {
        var count = section.BarCount;
        Meter MeterOf(int bar) => section.MeterOf(bar, songMeter);
        List<Sounding> Walk(Voice voice) => new VoiceWalk(MeterOf, voice.Part == SongPart.Chords).Walk(PickedBars.Placed(section, voice, MeterOf), count);

        var voices = section.Voices().Where(v => v.Part != SongPart.Pick).ToLookup(v => v.Part, Walk);
        var chords = ByBar<ChordUse>(voices[SongPart.Chords].SelectMany(w => w), s => values.Chord(s.Leaf) is { } chord ? [chord] : []);
        var strums = ByBar<Stroke>(voices[SongPart.Strum].SelectMany(w => w), s => values.Stroke(s.Leaf) is { } stroke ? [stroke] : []);
        var sung = ByBar<string>(voices[SongPart.Sung].SelectMany(w => w), s => [s.Leaf.Value.Text]);
        var tune = ByBar<TuneNote>(voices[SongPart.Tune].SelectMany(w => w), s => values.Tune(s.Leaf) is { } note ? [note] : []);
        var harp = ByBar<HarpNote>(voices[SongPart.Harp].SelectMany(w => w), s => values.Harp(s.Leaf) ?? []);
        var picked = Picked(section, chords, MeterOf);
        var bars = Enumerable.Range(1, count).Select(bar => new Bar
        {
            Number = firstNumber + bar - 1,
            Meter = MeterOf(bar),
            Chords = [.. chords[bar]],
            Strums = [.. strums[bar]],
            Sung = [.. sung[bar]],
            Tune = [.. tune[bar]],
            Harp = [.. harp[bar]],
            Picked = [.. picked[bar]],
        });
        return new(section.Name, anchors, [.. bars])
        {
            Standing = section.Standing,
            Keys = [.. Keys(section, count)],
            TunePlayer = section.TunePlayerSaid,
        };
    }

    /// <summary>In order of start, then from the low string.</summary>
    private ILookup<int, Claim<PickedNote>> Picked(SectionSyntax section, ILookup<int, Claim<ChordUse>> chords, Func<int, Meter> meterOf)
    {
        ChordUse? ChordAt(int bar, Beats at) => chords[bar].FirstOrDefault(c => c.Start <= at && at < c.Start + c.Length)?.Value;
        string Where(int bar, Beats at) => $"bar {bar} beat {BeatText.Write(at)} of {section.Name}";
        int? Fret(Sounding s, int index) => frets.FretOf(s.Leaf, index, ChordAt(s.Bar, s.Start), Where(s.Bar, s.Start));

        var strings = new PickedBars(section, meterOf, (leaf, bar, at) => frets.BassOf(leaf, ChordAt(bar, at), Where(bar, at))).ByString();
        return strings
            .SelectMany(v => new VoiceWalk(meterOf, false).Walk(v.Value, section.BarCount)
                .Select(s => (s.Bar, Claim: values.Picked(s.Leaf, v.Key, () => Fret(s, v.Key)) is { } note
                    ? new Claim<PickedNote>(s.Start, s.Length, note, s.Standing) : null)))
            .Where(p => p.Claim is not null)
            .OrderBy(p => p.Claim!.Start).ThenBy(p => p.Claim!.Value.StringIndex)
            .ToLookup(p => p.Bar, p => p.Claim!);
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
        sounding.SelectMany(s => read(s).Select(value => (s.Bar, Claim: new Claim<T>(s.Start, s.Length, value, s.Standing))))
            .ToLookup(p => p.Bar, p => p.Claim);
}
