using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Retuning;

/// <summary>How an instrument is set up for a song. Settings that sound alike string by string are equal, however they are spelled.</summary>
public sealed record GuitarSetting(Tuning Tuning, Capo Capo)
{
    public static GuitarSetting Of(Song song) => new(song.Tuning.Value, song.Capo.Value);

    public bool Equals(GuitarSetting? other) =>
        other is not null && Capo == other.Capo && Tuning.Count == other.Tuning.Count && Tuning.ChangeFrom(other.Tuning).All(c => c == 0);

    public override int GetHashCode() => Tuning.Strings.Aggregate(Capo.GetHashCode(), (hash, s) => HashCode.Combine(hash, s.Midi));
}
