using System.Security.Cryptography;
using System.Text;

namespace Harkbook.Publishing.Lessons.Pieces;

/// <summary>Collects all that a piece of a lesson is made from, and gives the hash that it is kept under.</summary>
internal sealed class PieceKey : IDisposable
{
    private readonly MemoryStream bytes = new();
    private readonly BinaryWriter writer;

    public PieceKey(string kind)
    {
        writer = new(bytes, Encoding.UTF8);
        writer.Write(kind);
    }

    public PieceKey With(params ReadOnlySpan<string> texts)
    {
        foreach (var text in texts)
            writer.Write(text);
        return this;
    }

    public PieceKey With(params ReadOnlySpan<double> numbers)
    {
        foreach (var number in numbers)
            writer.Write(number);
        return this;
    }

    public PieceKey With(byte[] hash)
    {
        writer.Write(hash);
        return this;
    }

    /// <summary>This program's drawing code, its fonts and the libraries that it draws with: builds are deterministic, so other contents
    /// have another id.</summary>
    public PieceKey WithProgram(params ReadOnlySpan<Type> types)
    {
        foreach (var type in types)
            writer.Write(type.Module.ModuleVersionId.ToByteArray());
        return this;
    }

    /// <summary>64 hexadecimal digits.</summary>
    public string Finish()
    {
        writer.Flush();
        return Convert.ToHexStringLower(SHA256.HashData(bytes.GetBuffer().AsSpan(0, (int)bytes.Length)));
    }

    public void Dispose() => writer.Dispose();
}
