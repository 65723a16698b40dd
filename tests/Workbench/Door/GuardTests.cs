using System.Net;
using System.Net.WebSockets;

namespace Harkbook.Workbench.Tests.Door;

/// <summary>
/// The workbench asked by whoever shouldn't be answered: other hosts' names (DNS rebinding), other sites' pages (cross-site requests and sockets), other
/// programs without the token. What is expected follows from docs/decisions/0014-workbench.md; headers are named as in RFC 9110, RFC 6455 (10.2), the
/// Fetch standard and Content Security Policy Level 3.
/// </summary>
public sealed class GuardTests : IAsyncLifetime
{
    private readonly SampleBook book = new();
    private readonly HttpClient client = new(new SocketsHttpHandler { UseCookies = false, AllowAutoRedirect = false });
    private WorkbenchServer server = null!;
    private string cookie = "";

    private string Own => server.Root.GetLeftPart(UriPartial.Authority);

    public async ValueTask InitializeAsync()
    {
        server = await WorkbenchServer.StartAsync(new(book.Folder), TestContext.Current.CancellationToken);
        using var first = await SendAsync(HttpMethod.Get, server.Address.PathAndQuery, cookieToo: false);
        cookie = first.Headers.GetValues("Set-Cookie").Single();
    }

    public async ValueTask DisposeAsync()
    {
        client.Dispose();
        await server.DisposeAsync();
        book.Dispose();
    }

    [Fact]
    public async Task TheFirstAddressGivesACookieThatScriptsAndOtherSitesCannotUse()
    {
        using var first = await SendAsync(HttpMethod.Get, server.Address.PathAndQuery, cookieToo: false);

        Assert.Equal(HttpStatusCode.Redirect, first.StatusCode);
        Assert.Equal("/", first.Headers.Location!.OriginalString);
        var said = cookie.Split("; ").Select(p => p.ToLowerInvariant()).ToArray();
        Assert.Contains("httponly", said);
        Assert.Contains("samesite=strict", said);
        Assert.Matches("^harkbook-[0-9]+=[0-9a-f]{64};", cookie);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/assets/desk.js")]
    [InlineData("/sounds/record?song=lantern-row/lantern-row")]
    [InlineData("/lessons/lantern-row/lesson/sheet.pdf")]
    [InlineData("/_blazor/negotiate")]
    public async Task NothingIsGivenWithoutTheCookie(string path)
    {
        using var answer = await SendAsync(HttpMethod.Get, path, cookieToo: false);
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    [Theory]
    [InlineData("0000000000000000000000000000000000000000000000000000000000000000")]
    [InlineData("")]
    public async Task AnotherTokenLetsNobodyIn(string token)
    {
        using var answer = await SendAsync(HttpMethod.Get, $"/?token={token}", cookieToo: false);
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.False(answer.Headers.Contains("Set-Cookie"));
    }

    [Theory]
    [InlineData("elsewhere.example")]
    [InlineData("localhost")]
    [InlineData("127.0.0.1:1")]
    public async Task UnderAnotherNameItIsNotThere(string host)
    {
        using var answer = await SendAsync(HttpMethod.Get, "/", host: host);
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    [Theory]
    [InlineData("GET", "https://elsewhere.example")]
    [InlineData("POST", "https://elsewhere.example")]
    [InlineData("POST", "null")]
    [InlineData("POST", "http://127.0.0.1:1")]
    [InlineData("POST", null)]
    public async Task AnotherOriginChangesAndReadsNothing(string method, string? origin)
    {
        using var answer = await SendAsync(new(method), method == "GET" ? "/" : "/recordings?name=a.wav", origin: origin, body: "sound");

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Equal([book.SongPath], Directory.GetFiles(book.Folder, "*", SearchOption.AllDirectories));
    }

    [Fact]
    public async Task ALinkOnAnotherSiteLeadsNowhere()
    {
        using var answer = await SendAsync(HttpMethod.Get, "/", site: "cross-site");
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    [Theory]
    [InlineData("https://elsewhere.example", false)]
    [InlineData(null, false)]
    [InlineData("own", true)]
    public async Task ASocketOpensToOurOwnPagesAlone(string? origin, bool opens)
    {
        using var socket = new ClientWebSocket();
        socket.Options.SetRequestHeader("Cookie", cookie.Split(';')[0]);
        if (origin is not null)
            socket.Options.SetRequestHeader("Origin", origin == "own" ? Own : origin);
        var address = new Uri(Own.Replace("http:", "ws:") + "/_blazor");

        if (opens)
            await socket.ConnectAsync(address, TestContext.Current.CancellationToken);
        else
            await Assert.ThrowsAsync<WebSocketException>(() => socket.ConnectAsync(address, TestContext.Current.CancellationToken));

        Assert.Equal(opens, socket.State == WebSocketState.Open);
    }

    [Fact]
    public async Task NoInlineScriptAndNoOtherPlaceIsAllowed()
    {
        using var answer = await SendAsync(HttpMethod.Get, "/");

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var policy = string.Join("; ", answer.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains("default-src 'none'", policy);
        Assert.Contains("frame-ancestors 'none'", policy);
        Assert.DoesNotContain("unsafe", policy);
        Assert.All(policy.Split([' ', ';'], StringSplitOptions.RemoveEmptyEntries).Where(w => w.Contains(':') || w.Contains('*')),
            place => Assert.Equal(Own.Replace("http:", "ws:"), place));
        var page = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.DoesNotContain("style=\"", page);
        Assert.DoesNotMatch("<script(?![^>]* src=)", page);
        Assert.DoesNotContain("http://", page.Replace(Own, ""));
        Assert.DoesNotContain("https://", page);
    }

    [Fact]
    public void OnlyThisMachineReachesIt() => Assert.Equal("127.0.0.1", server.Root.Host);

    [Theory]
    [InlineData("/lessons/../outside/lesson/secret.txt")]
    [InlineData("/lessons/%2e%2e/outside/lesson/secret.txt")]
    [InlineData("/lessons/..%2foutside%2flesson%2fsecret.txt")]
    [InlineData("/lessons/lantern-row/lesson/away.txt")]
    [InlineData("/lessons/lantern-row/lesson/away/secret.txt")]
    [InlineData("/lessons/lantern-row/lantern-row.hark")]
    [InlineData("/sounds/record?song=../outside/other")]
    [InlineData("/sounds/record?song=lantern-row/away")]
    public async Task NoFileOutsideTheSongbookIsGiven(string path)
    {
        var outside = Directory.CreateDirectory(Path.Combine(book.Outside, "outside", "lesson"));
        var secret = Path.Combine(outside.FullName, "secret.txt");
        await File.WriteAllTextAsync(secret, "secret", TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(Path.Combine(book.Outside, "outside", "other.hark"), "title Other\nrecording lesson/secret.txt\n",
            TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(Path.Combine(book.Folder, "lantern-row", "away.hark"), "title Away\nrecording ../../outside/lesson/secret.txt\n",
            TestContext.Current.CancellationToken);
        var lesson = Directory.CreateDirectory(Path.Combine(book.Folder, "lantern-row", "lesson"));
        File.CreateSymbolicLink(Path.Combine(lesson.FullName, "away.txt"), secret);
        Directory.CreateSymbolicLink(Path.Combine(lesson.FullName, "away"), outside.FullName);

        using var answer = await SendAsync(HttpMethod.Get, path);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.DoesNotContain("secret", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData("../../away.wav", "away.wav")]
    [InlineData("..\\..\\away.wav", "away.wav")]
    [InlineData("/etc/passwd", "passwd")]
    [InlineData(".hidden\n.wav", "hidden_.wav")]
    public async Task WhatIsTakenInStaysInTheSongbook(string name, string kept)
    {
        var before = Directory.GetFiles(book.Outside, "*", SearchOption.AllDirectories);

        using var answer = await SendAsync(HttpMethod.Post, $"/recordings?name={Uri.EscapeDataString(name)}", origin: Own, body: "no sound at all");

        Assert.Equal(HttpStatusCode.NoContent, answer.StatusCode);
        Assert.All(Directory.GetFiles(book.Outside, "*", SearchOption.AllDirectories).Except(before), file =>
        {
            Assert.StartsWith(book.Folder + Path.DirectorySeparatorChar, file);
            Assert.Equal(kept, Path.GetFileName(file));
        });
    }

    [Fact]
    public async Task ARecordingLargerThanTheBoundIsRefused()
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, Own + "/recordings?name=long.wav") { Content = new StreamContent(new MemoryStream([1])) };
        request.Content.Headers.ContentLength = Workbench.Books.Intakes.LargestBytes + 1;
        request.Headers.Add("Cookie", cookie.Split(';')[0]);
        request.Headers.Add("Origin", Own);
        request.Headers.ExpectContinue = true;

        try
        {
            using var answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
            Assert.False(answer.IsSuccessStatusCode);
        }
        catch (HttpRequestException)
        {
            // The connection was closed on it.
        }

        Assert.Equal([book.SongPath], Directory.GetFiles(book.Folder, "*", SearchOption.AllDirectories));
    }

    private async Task<HttpResponseMessage> SendAsync(HttpMethod method, string path, string? host = null, string? origin = null, string? site = null,
        string? body = null, bool cookieToo = true)
    {
        using var request = new HttpRequestMessage(method, new Uri(Own + path, new UriCreationOptions { DangerousDisablePathAndQueryCanonicalization = true }));
        if (cookieToo)
            request.Headers.Add("Cookie", cookie.Split(';')[0]);
        if (host is not null)
            request.Headers.Host = host;
        if (origin is not null)
            request.Headers.Add("Origin", origin);
        if (site is not null)
            request.Headers.Add("Sec-Fetch-Site", site);
        if (body is not null && method != HttpMethod.Get)
            request.Content = new StringContent(body);
        return await client.SendAsync(request, TestContext.Current.CancellationToken);
    }
}
