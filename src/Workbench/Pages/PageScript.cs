using Microsoft.JSInterop;

namespace Harkbook.Workbench.Pages;

/// <summary>The script of a page, from when the page is first shown until it is left. A page may be left while its script is still on its way.</summary>
/// <param name="page">What the script calls back.</param>
/// <param name="address">A module that gives <c>open</c> and <c>close</c>.</param>
internal sealed class PageScript<TPage>(IJSRuntime script, TPage page, string address) : IAsyncDisposable
    where TPage : class
{
    private readonly DotNetObjectReference<TPage> self = DotNetObjectReference.Create(page);
    private IJSObjectReference? module;
    private bool left;

    /// <summary>Whether calls reach it.</summary>
    public bool IsOpen => module is not null;

    public async Task OpenAsync(params object?[] given)
    {
        var coming = await script.InvokeAsync<IJSObjectReference>("import", address);
        if (left)
        {
            await coming.DisposeAsync();
            return;
        }
        module = coming;
        await coming.InvokeVoidAsync("open", [self, .. given]);
    }

    /// <summary>Calls one of its functions; nothing where it isn't open.</summary>
    public async Task CallAsync(string function, params object?[] given)
    {
        if (module is not null)
            await module.InvokeVoidAsync(function, given);
    }

    public async ValueTask DisposeAsync()
    {
        left = true;
        var open = module;
        module = null;
        try
        {
            if (open is not null)
            {
                await open.InvokeVoidAsync("close");
                await open.DisposeAsync();
            }
        }
        catch (Exception e) when (e is JSDisconnectedException or OperationCanceledException)
        {
            // The browser's page is gone already.
        }
        self.Dispose();
    }
}
