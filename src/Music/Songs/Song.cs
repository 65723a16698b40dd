using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>
/// The one document that people edit: every claim about a recording that a lesson is published from.
/// Read from and written to plain text by <see cref="SongText"/>. Compared by value, bars and all.
/// </summary>
public sealed record Song
{
    public required string Title { get; init; }

    /// <summary>Who plays on the record; null where unknown.</summary>
    public string? Player { get; init; }

    /// <summary>The record that the song is on; songs of one album were mostly taken down from one tape. Null where unknown.</summary>
    public string? Album { get; init; }

    public RecordingReference? Recording { get; init; }

    /// <summary>What A4 is in the recording.</summary>
    public required Fact<Hertz> ReferencePitch { get; init; }

    public required Fact<Tuning> Tuning { get; init; }

    public required Fact<Capo> Capo { get; init; }

    /// <summary>
    /// Null where the song's file names what sounds, as this song does. Else the file's names are the hand's, as without the capo, and what
    /// sounds lies this interval above them.
    /// </summary>
    public Interval? HandNames { get; init; }

    public required Fact<Meter> Meter { get; init; }

    /// <summary>Felt beats a minute, where no anchors say better.</summary>
    public required Fact<double> Tempo { get; init; }

    /// <summary>How the bars of a compound meter are counted aloud.</summary>
    public Counting Counting { get; init; }

    /// <summary>The key of the song; a section may leave it (<see cref="Section.Keys"/>).</summary>
    public required Fact<Key> Key { get; init; }

    /// <summary>Who sings or plays the tune; a section may say otherwise. Null where the file doesn't say.</summary>
    public Fact<TunePlayer>? TunePlayer { get; init; }

    /// <summary>A second instrument, today a harmonica; null where there is none.</summary>
    public Fact<HarpReference>? Harp { get; init; }

    public ImmutableArray<NamedShape> Shapes { get; init; } = [];

    /// <summary>Sections in playing order; bars are numbered through the song from 1.</summary>
    public required ImmutableArray<Section> Sections { get; init; }

    public IEnumerable<Bar> Bars => Sections.SelectMany(s => s.Bars);

    /// <summary>The key in which a bar stands (number from 1).</summary>
    public Key KeyAt(int barNumber)
    {
        var bar = barNumber;
        foreach (var section in Sections)
        {
            if (bar >= 1 && bar <= section.Bars.Length)
                return section.KeyAt(bar, Key.Value);
            bar -= section.Bars.Length;
        }
        throw new ArgumentOutOfRangeException(nameof(barNumber), barNumber, $"The song has bars 1 to {Sections.Sum(s => s.Bars.Length)}.");
    }

    /// <summary>Who sings or plays the tune in a section; where nobody says, a voice.</summary>
    public TunePlayer TunePlayerIn(Section section) => section.TunePlayer ?? TunePlayer?.Value ?? default;

    /// <summary>
    /// The song in another key: every chord, key, string, the tune and the harmonica move by the interval, so frets, holes and times stay as they are.
    /// </summary>
    public Song Transposed(Interval by) => SongTransposition.Of(this, by);

    public bool Equals(Song? other) =>
        other is not null
        && Facts().Equals(other.Facts())
        && Shapes.AsSpan().SequenceEqual(other.Shapes.AsSpan())
        && Sections.AsSpan().SequenceEqual(other.Sections.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Title, Tuning, Sections.Length, Shapes.Length);

    private (object?, object?, object?, object?, object, object, object, object?, object, object, object, object?, object?, Counting) Facts() =>
        (Title, Player, Album, Recording, ReferencePitch, Tuning, Capo, HandNames, Meter, Tempo, Key, TunePlayer, Harp, Counting);
}

/// <summary>The recording that a song's claims are about. Path is relative to the song's folder.</summary>
/// <param name="ContentHash">SHA-256 of the file's bytes, 64 lower-case hexadecimal digits.</param>
public sealed record RecordingReference(string Path, string? ContentHash, Seconds? Length);

/// <summary>Which harmonica: its key, its layout's name in the data ("richter"), and −1 for a low one or 1 for a high one.</summary>
public sealed record HarpReference(PitchName Key, string Layout, int Octave = 0)
{
    /// <summary>The instrument itself; a layout that the data doesn't have is taken for the usual one.</summary>
    public Harmonica ToHarmonica() => Harmonica.Of(HarpLayout.Find(Layout) ?? HarpLayout.Richter, Key, Octave);

    /// <summary>As a song file writes it: "D richter", "low F country".</summary>
    public override string ToString() => $"{(Octave < 0 ? "low " : Octave > 0 ? "high " : "")}{Key} {Layout}";
}

/// <summary>A shape under the name that bars use: a chord symbol, with a label behind "@" to tell two shapes of one chord apart ("D@high").</summary>
public sealed record NamedShape(string Name, Shape Shape, Standing Standing)
{
    /// <summary>The chord symbol: the name without its label.</summary>
    public string Symbol => SymbolOf(Name);

    /// <summary>A name without its label: "D" of "D@high".</summary>
    public static string SymbolOf(string name) => name.Split('@')[0];
}
