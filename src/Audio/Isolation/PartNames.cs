using System.Globalization;

namespace Harkbook.Audio.Isolation;

/// <summary>The parts by name.</summary>
internal static class PartNames
{
    public static SoundPart? Find(string name) => name.Trim() switch
    {
        "left" => new ChannelMix("left", 1, 0),
        "right" => new ChannelMix("right", 0, 1),
        "mid" => new ChannelMix("mid", 0.5f, 0.5f),
        "side" => new ChannelMix("side", 0.5f, -0.5f),
        "held" => new HeldOrStruck("held", Texture.Held),
        "struck" => new HeldOrStruck("struck", Texture.Struck),
        "rest" => new HeldOrStruck("rest", Texture.Rest),
        var other when other.StartsWith("pan:", StringComparison.Ordinal) && Range(other[4..]) is { } r && r.From >= -100 && r.To <= 100 =>
            new StereoPlace(other, r.From / 100, r.To / 100),
        var other when other.StartsWith("band:", StringComparison.Ordinal) && Range(other[5..]) is { From: >= 10, To: <= 20_000 } r =>
            new Band(other, r.From, r.To),
        _ => null,
    };

    private static (double From, double To)? Range(string text)
    {
        var ends = text.Split("..");
        return ends.Length == 2 && Number(ends[0]) is { } from && Number(ends[1]) is { } to && from < to ? (from, to) : null;
    }

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) ? value : null;
}
