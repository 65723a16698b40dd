namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Gathers stretches into phrases. A stretch goes on with the phrase that it follows most easily: soon, near in pitch, sounding like it; where it
/// follows none it begins one. So two instruments at once make two phrases, and a phrase ends where another instrument takes over.
/// </summary>
internal static class PhraseFinder
{
    /// <summary>The longest rest within a phrase, and how far apart notes of one breath may start, in seconds.</summary>
    private const double LongestRest = 0.5, OneBreath = 0.09;

    /// <summary>What each semitone and each second of rest costs beside a wholly different word of the network's, and the most that may be paid.</summary>
    private const double Semitone = 0.03, Resting = 0.3, Most = 0.75;

    /// <summary>What sounding together costs: begun on one breath, or not.</summary>
    private const double OnOneBreath = 0.15, NotOnOneBreath = 0.5;

    /// <summary>How many of a phrase's last stretches are looked at.</summary>
    private const int Last = 6;

    /// <param name="stretches">By first frame.</param>
    public static List<LinePhrase> Of(IEnumerable<LineStretch> stretches)
    {
        var (all, open) = (new List<LinePhrase>(), new List<LinePhrase>());
        foreach (var stretch in stretches)
        {
            open.RemoveAll(p => Rest(p, stretch) > LongestRest);
            var phrase = open.MinBy(p => Cost(p, stretch));
            if (phrase is null || Cost(phrase, stretch) > Most)
            {
                all.Add(phrase = new());
                open.Add(phrase);
            }
            phrase.Add(stretch);
        }
        return all;
    }

    private static double Rest(LinePhrase phrase, LineStretch next) => (next.First - phrase.End) * LineEstimator.Hop.Value;

    private static double Cost(LinePhrase phrase, LineStretch next)
    {
        var last = phrase.Stretches.TakeLast(Last).ToArray();
        var together = last.Where(s => s.Overlap(next) > 0.4 * Math.Min(s.Length, next.Length)).ToArray();
        var begun = together.All(s => (next.First - s.First) * LineEstimator.Hop.Value < OneBreath);
        return phrase.Word.DistanceTo(next.Kinds) + Semitone * last.Min(s => Math.Abs(s.Midi - next.Midi)) + Resting * Math.Max(0, Rest(phrase, next))
            + (together.Length == 0 ? 0 : begun ? OnOneBreath : NotOnOneBreath);
    }
}
