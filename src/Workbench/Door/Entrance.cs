using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http;

namespace Harkbook.Workbench.Door;

/// <summary>
/// Who may come in: whoever opens the first address, which holds a random token, is given a cookie that no other site's page can send
/// (SameSite=Strict) and no script can read (HttpOnly).
/// </summary>
public sealed class Entrance
{
    /// <summary>The word of the first address that the token stands behind.</summary>
    public const string Word = "token";

    private readonly byte[] token = Encoding.ASCII.GetBytes(Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32)));

    /// <summary>64 hexadecimal digits, 256 random bits.</summary>
    public string Token => Encoding.ASCII.GetString(token);

    /// <summary>Cookies are shared by all ports of a host, so the name holds the port.</summary>
    public static string CookieName(int port) => $"harkbook-{port}";

    /// <summary>Whether a text is the token, in a time that doesn't tell how much of it is.</summary>
    public bool Admits(string? text) => text is not null && CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(text), token);

    public static CookieOptions Cookie => new() { HttpOnly = true, SameSite = SameSiteMode.Strict, Path = "/", IsEssential = true };
}
