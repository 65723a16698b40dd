using System.Globalization;

namespace Harkbook.Music.Analysis;

/// <summary>Numbers as they stand in a sentence.</summary>
internal static class NumberWords
{
    private static readonly string[] Small = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    private static readonly string[] Ordinals = ["zeroth", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
        "eleventh", "twelfth", "thirteenth", "fourteenth"];

    /// <summary>"six", from thirteen on "13".</summary>
    public static string Of(int number) => number >= 0 && number < Small.Length ? Small[number] : number.ToString(CultureInfo.InvariantCulture);

    /// <summary>"Six", at a sentence's start.</summary>
    public static string Capital(int number) => Sentence(Of(number));

    /// <summary>"sixth".</summary>
    public static string Ordinal(int number) => number < Ordinals.Length ? Ordinals[number] : string.Create(CultureInfo.InvariantCulture, $"{number}th");

    /// <summary>"one bar", "six bars".</summary>
    public static string Of(int number, string thing) => $"{Of(number)} {thing}{(number == 1 ? "" : "s")}";

    /// <summary>"once", "twice", "six times".</summary>
    public static string Times(int count) => count switch { 1 => "once", 2 => "twice", _ => $"{Of(count)} times" };

    /// <summary>"3.1", "3".</summary>
    public static string Of(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>"a, b and c".</summary>
    public static string List(IReadOnlyList<string> words) =>
        words.Count <= 1 ? string.Concat(words) : $"{string.Join(", ", words.Take(words.Count - 1))} and {words[^1]}";

    public static string Sentence(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];
}
