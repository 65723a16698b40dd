using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace Harkbook.Music.Songs;

/// <summary>
/// A song file as it was before a command rewrote it, kept byte for byte under one line of comment that says what the command was and
/// which file it made. While that file stands unchanged, the earlier one can be given back exactly.
/// </summary>
/// <param name="What">The command's words, such as "rebar --tempo half".</param>
/// <param name="Made">SHA-256 of the file that it made, in lower-case hexadecimal digits.</param>
public sealed partial record EarlierText(DateOnly On, string What, string Made, ReadOnlyMemory<byte> Bytes)
{
    public static EarlierText Keep(ReadOnlySpan<byte> before, ReadOnlySpan<byte> made, string what, DateOnly on) => new(on, what, Hash(made), before.ToArray());

    /// <summary>Null where the bytes are no kept text.</summary>
    public static EarlierText? Read(ReadOnlyMemory<byte> file)
    {
        var end = file.Span.IndexOf((byte)'\n');
        var match = end < 0 ? Match.Empty : Head().Match(Encoding.UTF8.GetString(file.Span[..end]));
        return match.Success && DateOnly.TryParseExact(match.Groups[1].Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var on)
            ? new(on, match.Groups[2].Value, match.Groups[3].Value, file[(end + 1)..])
            : null;
    }

    public byte[] Write() =>
        [.. Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture,
            $"; the song as it was on {On:yyyy-MM-dd} before '{What}', which made the file with sha256 {Made}\n")), .. Bytes.Span];

    /// <summary>Whether a file is still the one that the command made.</summary>
    public bool IsBefore(ReadOnlySpan<byte> now) => Hash(now) == Made;

    private static string Hash(ReadOnlySpan<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    [GeneratedRegex(@"^; the song as it was on (\d{4}-\d\d-\d\d) before '(.*)', which made the file with sha256 ([0-9a-f]{64})$",
        RegexOptions.CultureInvariant)]
    private static partial Regex Head();
}
