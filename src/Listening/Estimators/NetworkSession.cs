using Microsoft.ML.OnnxRuntime;

namespace Harkbook.Listening.Estimators;

/// <summary>A trained network that is open, one piece of a recording after another.</summary>
internal sealed class NetworkSession : IDisposable
{
    /// <summary>The store grows by what is asked for; left to itself it doubles, and half of it stands empty (OrtArenaCfg: 1 is kSameAsRequested).</summary>
    private const int AsAsked = 1;

    /// <summary>
    /// One store of memory for all sessions. Without any, every piece of every network asks the system for all its memory anew, which
    /// costs more than a quarter of the time; with one each, those that listen side by side hold twice as much.
    /// </summary>
    private static readonly Lazy<OrtEnv> Store = new(() =>
    {
        using var memory = new OrtMemoryInfo(OrtMemoryInfo.allocatorCPU, OrtAllocatorType.ArenaAllocator, 0, OrtMemType.Default);
        using var settings = new OrtArenaCfg(0, AsAsked, -1, -1);
        var environment = OrtEnv.Instance();
        environment.CreateAndRegisterAllocator(memory, settings);
        return environment;
    });

    private readonly InferenceSession session;
    private readonly RunOptions run = new(), last = new();

    private NetworkSession(InferenceSession session)
    {
        this.session = session;
        last.AddRunConfigEntry("memory.enable_memory_arena_shrinkage", "cpu:0");
    }

    /// <summary>What the network's file says of itself.</summary>
    public IReadOnlyDictionary<string, string> Facts => session.ModelMetadata.CustomMetadataMap;

    /// <summary>All cores work on one piece and sleep between pieces.</summary>
    /// <exception cref="FileNotFoundException">The native library that runs networks isn't there, or can't be loaded.</exception>
    public static NetworkSession Open(byte[] model)
    {
        try
        {
            return new(Opened(model));
        }
        catch (Exception e) when (e is DllNotFoundException or EntryPointNotFoundException or TypeInitializationException)
        {
            throw new FileNotFoundException(
                $"the library onnxruntime, which runs the trained networks, can't be loaded here ({(e.InnerException ?? e).Message.TrimEnd('.')}). "
                + "Build Harkbook again on this computer, so that it comes with its own; on Linux it needs glibc 2.28 and libstdc++ 6.", e);
        }
    }

    /// <param name="isLast">Whether no piece follows, so that the store gives back what it has kept.</param>
    public IDisposableReadOnlyCollection<OrtValue> Run(string name, OrtValue input, string[] outputs, bool isLast) =>
        session.Run(isLast ? last : run, [name], [input], outputs);

    public void Dispose()
    {
        run.Dispose();
        last.Dispose();
        session.Dispose();
    }

    private static InferenceSession Opened(byte[] model)
    {
        _ = Store.Value;
        using var options = new SessionOptions { IntraOpNumThreads = Environment.ProcessorCount, EnableMemoryPattern = false };
        options.AddSessionConfigEntry("session.intra_op.allow_spinning", "0");
        options.AddSessionConfigEntry("session.use_env_allocators", "1");
        options.AddSessionConfigEntry("session.use_device_allocator_for_initializers", "1");
        return new(model, options);
    }
}
