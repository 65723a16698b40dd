namespace Harkbook.Audio.Recordings.Conversion;

/// <summary>Keeps the last lines of what a process says.</summary>
internal sealed class StandardErrorTail
{
    private const int Most = 20;

    private readonly Queue<string> lines = new();

    public string Text
    {
        get
        {
            lock (lines)
                return string.Join('\n', lines);
        }
    }

    public async Task ReadAsync(StreamReader reader)
    {
        while (await reader.ReadLineAsync() is { } line)
        {
            lock (lines)
            {
                lines.Enqueue(line);
                if (lines.Count > Most)
                    lines.Dequeue();
            }
        }
    }
}
