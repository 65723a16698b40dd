namespace Harkbook.App.Tests.Errors;

/// <summary>One way to meet an error.</summary>
/// <param name="When">The line of docs/errors.md that tells it.</param>
/// <param name="Arrange">What stands in the folder before.</param>
/// <param name="Arguments">The command.</param>
internal sealed record ErrorCase(string When, Action<Scene> Arrange, params string[] Arguments)
{
    public bool NeedsFfmpeg { get; init; }

    public string Name => $"{When}: {string.Join(' ', Arguments)}";
}
