using System.Net;
using Harkbook.Workbench.Books;
using Harkbook.Workbench.Door;
using Harkbook.Workbench.Lessons;
using Harkbook.Workbench.Pages;
using Harkbook.Workbench.Ways;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Harkbook.Workbench;

/// <summary>The workbench's server, on this machine's loopback address alone.</summary>
public sealed class WorkbenchServer : IAsyncDisposable
{
    private readonly WebApplication app;

    private WorkbenchServer(WebApplication app) => this.app = app;

    /// <summary>The address to open first; it holds the token that lets a browser in.</summary>
    public Uri Address => new($"{Root}?{Entrance.Word}={app.Services.GetRequiredService<Entrance>().Token}");

    /// <summary>Without the token.</summary>
    public Uri Root => new(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First() + "/");

    public static async Task<WorkbenchServer> StartAsync(WorkbenchOptions options, CancellationToken ct)
    {
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ApplicationName = typeof(WorkbenchServer).Assembly.GetName().Name });
        builder.Logging.ClearProviders();
        builder.WebHost.UseKestrelCore();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.Listen(IPAddress.Loopback, options.Port);
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = Intakes.LargestBytes;
        });
        AddServices(builder.Services, options);
        var app = builder.Build();
        // What is a socket must be known to the guard.
        app.UseWebSockets();
        app.UseMiddleware<Guard>();
        app.UseAntiforgery();
        AssetWays.Map(app);
        SongWays.Map(app);
        app.MapRazorComponents<WorkbenchPage>().AddInteractiveServerRenderMode(o => o.ContentSecurityFrameAncestorsPolicy = "'none'");
        await app.StartAsync(ct);
        _ = app.Services.GetRequiredService<FileWatch>();
        return new(app);
    }

    /// <summary>Serves until it is told to stop.</summary>
    public async Task RunAsync(CancellationToken ct)
    {
        try
        {
            await Task.Delay(Timeout.Infinite, ct);
        }
        catch (OperationCanceledException)
        {
            // Asked to stop.
        }
    }

    public async ValueTask DisposeAsync()
    {
        using var soon = new CancellationTokenSource(TimeSpan.FromSeconds(2));
        await app.StopAsync(soon.Token);
        await app.DisposeAsync();
    }

    private static void AddServices(IServiceCollection services, WorkbenchOptions options)
    {
        services.AddSingleton(options).AddSingleton(options.Clock).AddSingleton(new Bookcase(options.Folder, options.Clock))
            .AddSingleton<Entrance>().AddSingleton<InventedBook>().AddSingleton<Intakes>().AddSingleton<LessonRuns>().AddSingleton<FileWatch>();
        // The program's own signals stop it.
        services.AddSingleton<IHostLifetime, NoLifetime>();
        services.AddDataProtection().UseEphemeralDataProtectionProvider();
        services.AddAntiforgery();
        services.AddRazorComponents().AddInteractiveServerComponents();
        services.AddSignalR(o => o.MaximumReceiveMessageSize = 1 << 18);
    }

    private sealed class NoLifetime : IHostLifetime
    {
        public Task WaitForStartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

        public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
    }
}
