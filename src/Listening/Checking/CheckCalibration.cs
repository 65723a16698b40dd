using System.Collections.Immutable;
using System.Text.Json;

namespace Harkbook.Listening.Checking;

/// <summary>
/// Turns the log-odds of a check's findings into the probability that their claims are right, and these into verdicts (models/check.json: numbers,
/// command, data). The log-odds of each kind, calibrated on claims as often wrong as right, are joined by Bayes's rule with how often claims of that
/// kind are wrong: errors are taken to be so many a minute, so that one note of hundreds is likelier right than one tuning.
/// </summary>
public sealed class CheckCalibration
{
    private static readonly JsonSerializerOptions Format = new(JsonSerializerDefaults.Web);

    private readonly Numbers numbers;

    private CheckCalibration(Numbers numbers) => this.numbers = numbers;

    public static CheckCalibration Shipped { get; } = new(Read());

    /// <summary>How many right claims a minute may be doubtful.</summary>
    public double FalseAlarmsPerMinute => numbers.FalseAlarmsPerMinute;

    /// <summary>From this probability on no claim is ever doubtful.</summary>
    public double NeverDoubtful => numbers.NeverDoubtful;

    /// <summary>How many claims of each kind are taken to be wrong in a minute of what a person has decided.</summary>
    public double ErrorsPerMinute => numbers.ErrorsPerMinute;

    /// <summary>The share of a kind's claims that is taken to be wrong at most, however few they are.</summary>
    public double MostOftenWrong => numbers.MostOftenWrong;

    /// <summary>
    /// The findings with their probabilities and verdicts. The most doubtful are doubtful, as many as are expected to hold
    /// <see cref="FalseAlarmsPerMinute"/> right ones; contradicted are those of them that lie below half of the border and are likelier wrong than right.
    /// What would fit better is offered only for a claim that isn't supported.
    /// </summary>
    /// <param name="minutes">How long the recording is.</param>
    public ImmutableArray<Finding> Judge(IReadOnlyCollection<Finding> findings, double minutes)
    {
        var rates = Rates(findings, minutes);
        Finding[] weighed = [.. findings.Select(f => f.LogOdds is { } raw ? f with { Support = Probability(f.Kind, raw, f.Clues, rates[f.Kind].Share) } : f)];
        var border = Border(weighed.Where(f => f.LogOdds is not null).Select(f => f.Support), minutes);
        return [.. weighed.Select(f => f.LogOdds is null ? f : Told(f, border))];
    }

    /// <summary>Whether a finding may be doubtful, whatever else is found.</summary>
    public bool MayBeDoubtful(Finding finding) =>
        finding.LogOdds is not { } raw || Probability(finding.Kind, raw, finding.Clues, numbers.MostOftenWrong) < NeverDoubtful;

    /// <summary>The probability that a claim is right.</summary>
    /// <param name="wrong">How often claims of its kind are wrong.</param>
    public double Probability(ClaimKind kind, double logOdds, ImmutableDictionary<string, double> clues, double wrong)
    {
        var line = numbers.Kinds.TryGetValue(kind.ToString(), out var own) ? own : numbers.OtherKinds;
        var calibrated = line.Offset + line.Slope * logOdds + line.Clues.Sum(c => c.Value * clues.GetValueOrDefault(c.Key));
        return LogOdds.Chance(calibrated - LogOdds.Of(wrong, 1e-9));
    }

    /// <summary>How often claims of each kind are wrong: so many a minute, and never more than a share of them.</summary>
    public ImmutableDictionary<ClaimKind, ErrorRate> Rates(IReadOnlyCollection<Finding> findings, double minutes)
    {
        var counts = findings.CountBy(f => f.Kind).ToDictionary();
        int Claims(ClaimKind kind) => Math.Max(counts.GetValueOrDefault(kind), Sounding(kind) is { } written ? counts.GetValueOrDefault(written) : 0);
        return Enum.GetValues<ClaimKind>().Select(k => (Kind: k, Claims: Math.Max(1, Claims(k)))).ToImmutableDictionary(k => k.Kind,
            k => new ErrorRate(k.Claims, Math.Min(numbers.ErrorsPerMinute * minutes, numbers.MostOftenWrong * k.Claims)));
    }

    /// <summary>
    /// What is written where silence isn't: silence is claimed wherever nothing more is written than is, about as often as something is. Null for other kinds.
    /// </summary>
    private static ClaimKind? Sounding(ClaimKind kind) => kind switch
    {
        ClaimKind.Silence => ClaimKind.Note,
        ClaimKind.StillHand => ClaimKind.Stroke,
        _ => null,
    };

    /// <summary>Of the claims below it so many a minute are expected to be right as may be doubtful, and one at least.</summary>
    private double Border(IEnumerable<double> supports, double minutes)
    {
        var (right, most) = (0.0, Math.Max(1, FalseAlarmsPerMinute * minutes));
        foreach (var support in supports.Order())
        {
            right += support;
            if (right > most || support >= NeverDoubtful)
                return Math.Min(support, NeverDoubtful);
        }
        return NeverDoubtful;
    }

    private static Finding Told(Finding finding, double border)
    {
        var verdict = finding.Support >= border ? Verdict.Supported : finding.Support < Math.Min(0.5, border / 2) ? Verdict.Contradicted : Verdict.Doubtful;
        var rival = finding.Rival is { } r ? r with { LogOdds = -LogOdds.Of(finding.Support, 1e-9) } : null;
        var told = finding with { Verdict = verdict, Rival = rival };
        return verdict == Verdict.Supported ? told with { Heard = null, Suggestion = null, Remedy = null } : told;
    }

    private static Numbers Read()
    {
        const string Name = "Harkbook.Listening.Models.check.json";
        using var stream = typeof(CheckCalibration).Assembly.GetManifestResourceStream(Name)
            ?? throw new InvalidOperationException($"The assembly lacks {Name}; was it built without models/check.json?");
        return JsonSerializer.Deserialize<Numbers>(stream, Format) ?? throw new InvalidOperationException($"{Name} is empty.");
    }

    private sealed record Numbers
    {
        public required double FalseAlarmsPerMinute { get; init; }

        public required double NeverDoubtful { get; init; }

        public required double ErrorsPerMinute { get; init; }

        public required double MostOftenWrong { get; init; }

        public required ImmutableDictionary<string, Line> Kinds { get; init; }

        public required Line OtherKinds { get; init; }
    }

    /// <summary>Calibrated log-odds are slope · log-odds + offset, and what each clue is worth.</summary>
    private sealed record Line(double Slope, double Offset)
    {
        public ImmutableDictionary<string, double> Clues { get; init; } = ImmutableDictionary<string, double>.Empty;
    }
}
