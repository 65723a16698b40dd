using System.Buffers.Binary;
using System.IO.Compression;
using System.Runtime.InteropServices;
using System.Text.Json;
using Harkbook.Units;

namespace Harkbook.Listening.Evidence;

/// <summary>
/// Evidence in a ZIP archive (PKWARE APPNOTE; Deflate, RFC 1951): one entry a matrix, written and read as a stream, row by row, numbers little-endian,
/// and <c>evidence.json</c> with their shapes. Three minutes take about 4 MB.
/// </summary>
public static class EvidenceFile
{
    private sealed record Shapes(
        int Frames, int Pitches, double Hop, int LowestMidi, double HeardAbout, double OnsetThreshold, double ReleaseThreshold,
        int PulseFrames, int? FirstSound, int? LastSound, int LineFrames, int LineCells, int ColourFrames, int ColourBands,
            Pitch[] ReferencePitch);

    private sealed record Pitch(double Hertz, double Confidence, string? Why);

    public static void Write(SoundEvidence evidence, string path)
    {
        using var archive = new ZipArchive(File.Create(path), ZipArchiveMode.Create);
        Write(evidence, archive);
    }

    /// <exception cref="FormatException">The file holds no evidence that makes sense.</exception>
    public static SoundEvidence Read(string path)
    {
        using var archive = ZipFile.OpenRead(path);
        return Read(archive);
    }

    internal static void Write(SoundEvidence evidence, ZipArchive archive)
    {
        var (notes, pulse) = (evidence.Notes, evidence.Pulse);
        var (counts, cells) = evidence.Lines.Packed();
        var shapes = new Shapes(
            notes.Frames, notes.Pitches, notes.Hop.Value, notes.LowestMidi, evidence.HeardAbout.Value, evidence.Picking.OnsetThreshold,
                evidence.Picking.ReleaseThreshold,
            pulse.Curves.Frames, pulse.Span?.First, pulse.Span?.Last, counts.Length, cells.Length, evidence.Colour.Frames,
                evidence.Colour.Bands,
            [.. evidence.ReferencePitch.Candidates.Select(c => new Pitch(c.Value.Value, c.Confidence, c.Evidence))]);
        Put(archive, "evidence.json", JsonSerializer.SerializeToUtf8Bytes(shapes));
        Put(archive, "sounding", notes.Sounding.Steps.Span);
        Put(archive, "onset", notes.Onset.Steps.Span);
        Put(archive, "end", notes.End.Steps.Span);
        Put(archive, "level", notes.Level.Steps.Span);
        Put(archive, "stiffness", evidence.Stiffness.Bytes);
        Put(archive, "bands", LittleEndian(pulse.Bands.Values.Span));
        Put(archive, "pulse", LittleEndian(CurveSteps(pulse.Curves)));
        Put(archive, "line-counts", counts);
        Put(archive, "line-cells", cells);
        Put(archive, "harmony", LittleEndian(MemoryMarshal.Cast<Half, ushort>(evidence.Colour.Harmony)));
        Put(archive, "colour", LittleEndian(MemoryMarshal.Cast<Half, ushort>(evidence.Colour.Levels)));
    }

    /// <exception cref="FormatException">An entry is missing or has another size than the shapes say.</exception>
    internal static SoundEvidence Read(ZipArchive archive)
    {
        using var json = Entry(archive, "evidence.json").Open();
        var shapes = JsonSerializer.Deserialize<Shapes>(json) ?? throw new FormatException("The evidence has no shapes.");
        var cells = checked(shapes.Frames * shapes.Pitches);
        return new()
        {
            ReferencePitch = new([.. shapes.ReferencePitch.Select(p => new Candidate<Hertz>(Hertz.FromHertz(p.Hertz), p.Confidence, p.Why))]),
            HeardAbout = Hertz.FromHertz(shapes.HeardAbout),
            Picking = new() { OnsetThreshold = shapes.OnsetThreshold, ReleaseThreshold = shapes.ReleaseThreshold },
            Notes = new(
                Seconds.FromSeconds(shapes.Hop), shapes.LowestMidi, Matrix("sounding"), Matrix("onset"), Matrix("end"),
                LevelMatrix.OfSteps(shapes.Frames, shapes.Pitches, Bytes(archive, "level", cells))),
            Stiffness = Stiffness(archive),
            Pulse = shapes is { FirstSound: { } first, LastSound: { } last } ? new(Curves(archive, shapes), Bands(archive, shapes), new(first, last))
                : PulseSound.None,
            Lines = LineCells.Unpacked(Bytes(archive, "line-counts", shapes.LineFrames), Bytes(archive, "line-cells", shapes.LineCells)),
            Colour = new(shapes.ColourBands, Halves("harmony", SoundColour.Classes), Halves("colour", shapes.ColourBands)),
        };

        PosteriorMatrix Matrix(string name) => PosteriorMatrix.OfSteps(shapes.Frames, shapes.Pitches, Bytes(archive, name, cells));
        Half[] Halves(string name, int width) => [.. MemoryMarshal.Cast<ushort, Half>(Numbers(archive, name, checked(shapes.ColourFrames * width)))];
    }

    /// <summary>What was heard before stiffness was measured has none.</summary>
    private static StiffnessEvidence Stiffness(ZipArchive archive) =>
        archive.GetEntry("stiffness") is not { } entry ? StiffnessEvidence.None
            : StiffnessEvidence.OfBytes(Bytes(archive, "stiffness", checked((int)entry.Length)));

    private static KeptBands Bands(ZipArchive archive, Shapes shapes) =>
        KeptBands.OfValues(Numbers(archive, "bands", checked(shapes.PulseFrames * PulseBands.Count)));

    private static PulseEvidence Curves(ZipArchive archive, Shapes shapes)
    {
        var curves = new PulseEvidence(shapes.PulseFrames);
        var steps = Numbers(archive, "pulse", checked(shapes.PulseFrames * PulseEvidence.Width));
        curves.TakeSteps(steps);
        return curves;
    }

    private static ushort[] CurveSteps(PulseEvidence curves)
    {
        var steps = new ushort[curves.Frames * PulseEvidence.Width];
        curves.GiveSteps(steps);
        return steps;
    }

    private static void Put(ZipArchive archive, string name, ReadOnlySpan<byte> bytes)
    {
        using var stream = archive.CreateEntry(name, CompressionLevel.Fastest).Open();
        stream.Write(bytes);
    }

    private static ZipArchiveEntry Entry(ZipArchive archive, string name) =>
        archive.GetEntry(name) ?? throw new FormatException($"The evidence has no \"{name}\".");

    private static byte[] Bytes(ZipArchive archive, string name, int count)
    {
        var entry = Entry(archive, name);
        // Looked at before anything of that size is made: a damaged file may claim any.
        if (entry.Length != count)
            throw new FormatException($"\"{name}\" has {entry.Length} bytes where {count} should be.");
        var bytes = new byte[count];
        using var stream = entry.Open();
        stream.ReadExactly(bytes);
        return bytes;
    }

    private static ushort[] Numbers(ZipArchive archive, string name, int count)
    {
        var numbers = MemoryMarshal.Cast<byte, ushort>(Bytes(archive, name, checked(2 * count))).ToArray();
        if (!BitConverter.IsLittleEndian)
            BinaryPrimitives.ReverseEndianness(numbers, numbers);
        return numbers;
    }

    private static ReadOnlySpan<byte> LittleEndian(ReadOnlySpan<ushort> numbers)
    {
        if (BitConverter.IsLittleEndian)
            return MemoryMarshal.AsBytes(numbers);
        var turned = new ushort[numbers.Length];
        BinaryPrimitives.ReverseEndianness(numbers, turned);
        return MemoryMarshal.AsBytes(turned.AsSpan());
    }
}
