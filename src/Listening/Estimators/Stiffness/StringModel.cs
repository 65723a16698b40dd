using System.Text.Json.Serialization;

namespace Harkbook.Listening.Estimators.Stiffness;

/// <summary>The numbers of models/stiffness.json on strings, which says what each means.</summary>
internal sealed record StringModel(double Wrong, double PlainSpread, double WoundSpread, double FretFall, double Open, double Habit, double Place)
{
    public const int LastFret = 19;

    private double[]? likings;

    /// <summary>How readily a player takes each fret, before anything is known.</summary>
    [JsonIgnore]
    public double[] Likings => likings ??= [.. Enumerable.Range(0, LastFret + 1).Select(f => f == 0 ? Open : Math.Exp(-FretFall * f))];
}
