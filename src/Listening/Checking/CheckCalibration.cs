using System.Collections.Immutable;
using System.Text.Json;

namespace Harkbook.Listening.Checking;

/// <summary>
/// Turns the log-odds of findings into the probability that their claim is right, and that into verdicts. Fitted on songs with planted errors
/// (models/check.json says which, and by which command); errors are taken to be rare.
/// </summary>
public sealed class CheckCalibration
{
    private static readonly JsonSerializerOptions Format = new(JsonSerializerDefaults.Web);

    private readonly Numbers numbers;

    private CheckCalibration(Numbers numbers) => this.numbers = numbers;

    public static CheckCalibration Shipped { get; } = new(Read());

    /// <summary>
    /// Below this probability a claim is doubtful: right songs have so many claims below it a minute as <see cref="FalseAlarmsPerMinute"/> says.
    /// </summary>
    public double DoubtfulBelow => numbers.DoubtfulBelow;

    /// <summary>Below this probability a claim is contradicted: it is likelier wrong than right.</summary>
    public double ContradictedBelow => numbers.ContradictedBelow;

    public double FalseAlarmsPerMinute => numbers.FalseAlarmsPerMinute;

    /// <summary>The finding with its calibrated support and verdict. What would fit better is offered only for a claim that isn't supported.</summary>
    public Finding Judge(Finding finding)
    {
        if (finding.LogOdds is not { } raw)
            return finding;
        var support = Probability(finding.Kind, raw, finding.Clues);
        var judged = finding with { Support = support, Verdict = VerdictOf(support), Rival = finding.Rival is { } r
            ? r with { LogOdds = -LogOdds.Of(support, 1e-9) } : null };
        return judged.Verdict == Verdict.Supported ? judged with { Heard = null, Suggestion = null, Remedy = null } : judged;
    }

    /// <summary>The probability that a claim is right.</summary>
    public double Probability(ClaimKind kind, double logOdds, ImmutableDictionary<string, double> clues)
    {
        var line = numbers.Kinds.TryGetValue(kind.ToString(), out var own) ? own : numbers.OtherKinds;
        return LogOdds.Chance(line.Offset + line.Slope * logOdds + line.Clues.Sum(c => c.Value * clues.GetValueOrDefault(c.Key)));
    }

    private Verdict VerdictOf(double support) =>
        support < ContradictedBelow ? Verdict.Contradicted : support < DoubtfulBelow ? Verdict.Doubtful : Verdict.Supported;

    private static Numbers Read()
    {
        const string Name = "Harkbook.Listening.Models.check.json";
        using var stream = typeof(CheckCalibration).Assembly.GetManifestResourceStream(Name)
            ?? throw new InvalidOperationException($"The assembly lacks {Name}; was it built without models/check.json?");
        return JsonSerializer.Deserialize<Numbers>(stream, Format) ?? throw new InvalidOperationException($"{Name} is empty.");
    }

    private sealed record Numbers
    {
        public required double DoubtfulBelow { get; init; }

        public required double ContradictedBelow { get; init; }

        public required double FalseAlarmsPerMinute { get; init; }

        public required ImmutableDictionary<string, Line> Kinds { get; init; }

        public required Line OtherKinds { get; init; }
    }

    /// <summary>Calibrated log-odds are slope · log-odds + offset, and what each clue is worth.</summary>
    private sealed record Line(double Slope, double Offset)
    {
        public ImmutableDictionary<string, double> Clues { get; init; } = ImmutableDictionary<string, double>.Empty;
    }
}
