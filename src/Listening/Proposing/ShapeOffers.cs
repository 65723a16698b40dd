using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing;

/// <summary>A shape that may sound a chord at a place.</summary>
/// <param name="Match">How well its pitches explain what was heard there, 0 to 1; null where nothing was listened to.</param>
/// <param name="Strings">For each string the posterior that its pitch sounds there, the most at any moment; null where it is muted.</param>
public sealed record OfferedShape(Voicing Voicing, double? Match, ImmutableArray<double?> Strings);

/// <summary>
/// The playable shapes of a chord at one place of a recording: those that explain best what is heard there and ask least of the hand come first.
/// </summary>
public static class ShapeOffers
{
    private const int Candidates = 40;

    /// <summary>As when a song is proposed, what sounds outweighs what is comfortable.</summary>
    private const double MatchWeight = 16;

    /// <param name="notes">What was heard; <see cref="NotePosteriorgram.None"/> where nothing was.</param>
    /// <param name="before">The shape that the hand comes from; null for none.</param>
    public static ImmutableArray<OfferedShape> For(NotePosteriorgram notes, Seconds from, Seconds to, Chord chord, Tuning tuning, Capo capo, Shape? before)
    {
        var options = new VoicingOptions { Hand = Hand.On(tuning), Results = Candidates };
        (double[] Mean, double[] Most)? heard = notes.Frames == 0 ? null : Strengths(notes, from, to);
        return [.. VoicingSearch.Find(chord, tuning, capo, options, before).Select(v => Offered(v, heard, tuning, capo))
            .OrderBy(o => o.Voicing.Cost.Total + MatchWeight * (1 - (o.Match ?? 0)))];
    }

    private static OfferedShape Offered(Voicing voicing, (double[] Mean, double[] Most)? heard, Tuning tuning, Capo capo)
    {
        var pitches = voicing.Shape.PitchOfEachString(tuning, capo);
        return heard is not { } h ? new(voicing, null, [.. pitches.Select(_ => (double?)null)])
            : new(voicing, PitchFit.Of(h.Mean, pitches.OfType<Pitch>().Select(p => p.Midi).ToHashSet()),
                [.. pitches.Select(p => p is { } pitch ? h.Most[Math.Clamp(pitch.Midi, 0, 127)] : (double?)null)]);
    }

    /// <summary>How strongly each pitch sounds over a stretch, the strongest counting 1, and how surely it sounds at any moment.</summary>
    private static (double[] Mean, double[] Most) Strengths(NotePosteriorgram notes, Seconds from, Seconds to)
    {
        var (mean, most) = (new double[128], new double[128]);
        for (var frame = notes.FrameAt(from); frame <= notes.FrameAt(to); frame++)
        {
            for (var p = 0; p < notes.Pitches; p++)
            {
                mean[notes.LowestMidi + p] += notes.Sounding[frame, p];
                most[notes.LowestMidi + p] = Math.Max(most[notes.LowestMidi + p], notes.Sounding[frame, p]);
            }
        }
        var strongest = mean.Max();
        return (strongest > 0 ? [.. mean.Select(m => m / strongest)] : mean, most);
    }
}
