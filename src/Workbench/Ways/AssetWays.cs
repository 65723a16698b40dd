using Harkbook.Publishing.Drawings;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Harkbook.Workbench.Ways;

/// <summary>Serves scripts, styles and fonts out of the assemblies.</summary>
public static class AssetWays
{
    public static void Map(IEndpointRouteBuilder ways)
    {
        ways.MapGet("/assets/{name}", (string name) => Asset(name));
        ways.MapGet("/fonts/{name}", (string name) => Found(typeof(FontBook), $"fonts/{name}", "font/ttf"));
    }

    private static IResult Asset(string name) => Path.GetExtension(name) switch
    {
        ".js" => Found(typeof(AssetWays), $"assets/{name}", "text/javascript"),
        ".css" => Found(typeof(AssetWays), $"assets/{name}", "text/css"),
        ".svg" => Found(typeof(AssetWays), $"assets/{name}", "image/svg+xml"),
        _ => Results.NotFound(),
    };

    private static IResult Found(Type of, string resource, string type) =>
        of.Assembly.GetManifestResourceStream(resource) is { } stream ? Results.Stream(stream, type) : Results.NotFound();
}
