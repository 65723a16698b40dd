using System.Runtime.InteropServices;

namespace Harkbook.App;

/// <summary>
/// Turns Ctrl-C, a request to end and a closed terminal into a cancellation, from the program's first moment on. A second one
/// ends the program at once, as the system does by itself.
/// </summary>
internal sealed class StopSignals : IDisposable
{
    private readonly CancellationTokenSource source = new();
    private readonly PosixSignalRegistration[] registrations;

    public StopSignals() =>
        registrations = [.. new[] { PosixSignal.SIGINT, PosixSignal.SIGTERM,
            PosixSignal.SIGHUP }.Select(signal => PosixSignalRegistration.Create(signal, Stop))];

    public CancellationToken Token => source.Token;

    public void Dispose()
    {
        foreach (var registration in registrations)
            registration.Dispose();
        source.Dispose();
    }

    private void Stop(PosixSignalContext context)
    {
        context.Cancel = !source.IsCancellationRequested;
        source.Cancel();
    }
}
