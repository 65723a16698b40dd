namespace Harkbook.Listening;

/// <summary>What a person claims outranks what was heard.</summary>
internal static class Told
{
    private const string Why = "as told";

    /// <summary>The claim, sure; without one, what was heard.</summary>
    public static Distribution<T> Or<T>(T? claim, Distribution<T> heard) where T : struct => claim is { } told ? Only(told) : heard;

    /// <summary>The claim and nothing else.</summary>
    public static Distribution<T> Only<T>(T claim) => new(new Candidate<T>(claim, 1, Why));
}
