using System.Net;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;

namespace Harkbook.Workbench.Door;

/// <summary>
/// Stands before every request, the socket's among them: only this machine, only under this address, only from this workbench's own pages, only
/// with the cookie. What comes back tells the browser to load nothing from elsewhere and to run no script but ours.
/// </summary>
public sealed class Guard(RequestDelegate next, Entrance entrance)
{
    public async Task InvokeAsync(HttpContext context)
    {
        var (request, port) = (context.Request, context.Connection.LocalPort);
        Protect(context.Response.Headers, port);
        if (Refusal(context, port) is { } why)
            await RefuseAsync(context.Response, why);
        else if (entrance.Admits(request.Cookies[Entrance.CookieName(port)]))
            await next(context);
        else if (IsFirst(request))
            Admit(context.Response, port);
        else
            await RefuseAsync(context.Response, "Open the workbench by the address that 'harkbook open' says; it is another one each time.");
    }

    /// <summary>Why a request is none of ours; null where nothing speaks against it but the cookie.</summary>
    private static string? Refusal(HttpContext context, int port)
    {
        var (request, own) = (context.Request, $"127.0.0.1:{port}");
        var origin = request.Headers.Origin.ToString();
        var reads = HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method);
        if (context.Connection.RemoteIpAddress is not { } from || !IPAddress.IsLoopback(from))
            return "The workbench is for this machine alone.";
        if (request.Host.Value != own)
            return $"The workbench is at {own} and under no other name.";
        if (origin.Length > 0 && origin != $"http://{own}")
            return "Another site's page asked for this.";
        if (origin.Length == 0 && (!reads || context.WebSockets.IsWebSocketRequest))
            return "A request that changes something says which page it comes from.";
        return request.Headers["Sec-Fetch-Site"].ToString() is "cross-site" or "same-site" ? "Another site's page asked for this." : null;
    }

    private bool IsFirst(HttpRequest request) =>
        HttpMethods.IsGet(request.Method) && request.Path == "/" && entrance.Admits(request.Query[Entrance.Word]);

    /// <summary>The token leaves the address at once, so that it stands in no history and no picture of the screen.</summary>
    private void Admit(HttpResponse response, int port)
    {
        response.Cookies.Append(Entrance.CookieName(port), entrance.Token, Entrance.Cookie);
        response.Redirect("/");
    }

    private static Task RefuseAsync(HttpResponse response, string why)
    {
        response.StatusCode = StatusCodes.Status403Forbidden;
        response.ContentType = "text/plain; charset=utf-8";
        return response.WriteAsync(why + "\n");
    }

    private static void Protect(IHeaderDictionary headers, int port)
    {
        headers.ContentSecurityPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; media-src 'self'; "
            + $"connect-src 'self' ws://127.0.0.1:{port}; form-action 'self'; base-uri 'self'; frame-ancestors 'none'";
        headers.XContentTypeOptions = "nosniff";
        headers[HeaderNames.XFrameOptions] = "DENY";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers.CacheControl = "no-store";
    }
}
