using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Reference;

/// <summary>
/// Beside the library tonal 6.5.1 (npm, MIT): its answers stand in tonal-reference.tsv, which tonal.mjs makes. Where the two differ, the
/// difference belongs to a class that docs/chord-symbols.md explains; a difference without a class fails.
/// </summary>
public class ReferenceLibraryTests
{
    private static readonly ILookup<string, string[]> Rows = File.ReadLines(Path.Combine(Folder(), "tonal-reference.tsv"))
        .Where(l => !l.StartsWith('#')).Select(l => l.Split('\t')).ToLookup(c => c[0]);

    /// <summary>What stands behind the root in symbols that tonal reads otherwise, by class.</summary>
    private static readonly Dictionary<string, string[]> Otherwise = new()
    {
        ["books differ on 11 and 13"] = ["maj11", "Maj11", "M11", "Δ11", "^11", "m13", "-13"],
        ["an altered chord's notes differ"] = ["7alt"],
        ["a flat five takes the fifth's place"] = ["7b5#9", "7#9b5", "7b5b9", "7b9b5", "7b5b13", "7b5b9b13", "9b5b13", "6b5", "M6b5"],
        ["a fifth stays under a thirteenth or sixth"] = ["7b13", "9b13", "M7b6", "^7b6", "mb6M7", "mb6b9"],
        ["a bare triangle is a major seventh"] = ["^", "^#5"],
        ["C4 is Csus4"] = ["4"],
        ["maj7 is not said"] = ["maj#4"],
        ["add13 brings no ninth"] = ["M7add13"],
        ["a sharp five is spelled so"] = ["m7#5", "m9#5"],
        ["diminished sevenths have a flat flat seven"] = ["o7M7"],
        ["a flat after the root belongs to the root"] = ["b9sus"],
        ["words of its own"] = ["67", "alt7", "dom", "h", "h7", "m11A", "phryg", "quartal"],
    };

    [Fact]
    public void SymbolsHoldTheSameNotes() => Assert.All(Rows["symbol"], row =>
    {
        var theirs = row[2].Split(' ').ToHashSet();
        var same = ChordSymbol.TryRead(row[1], out var chord) && theirs.SetEquals(chord.Notes.Select(n => n.ToString()));
        Assert.True(same || Otherwise.Values.Any(c => c.Contains(Suffix(row[1]))),
            $"{row[1]}: {row[2]}; ours: {(chord is null ? "unread" : string.Join(' ', chord.Notes))}");
    });

    [Fact]
    public void EveryExplainedSymbolDiffers()
    {
        var different = Rows["symbol"]
            .Where(r => !(ChordSymbol.TryRead(r[1], out var c) && r[2].Split(' ').ToHashSet().SetEquals(c.Notes.Select(n => n.ToString()))))
            .Select(r => Suffix(r[1])).ToHashSet();
        Assert.All(Otherwise.Values.SelectMany(v => v), suffix => Assert.Contains(suffix, different));
    }

    // tonal lists every kind of its dictionary that the notes make on one of them; ours ranks names by how plain they are.
    [Fact]
    public void EveryNameThatTonalGivesIsAmongOurs() => Assert.All(Rows["detect"].Where(r => r[2].Length > 0), row =>
    {
        var ours = Rank(row);
        foreach (var name in row[2].Split(' '))
        {
            var (root, bass) = RootAndBass(name, row[1]);
            Assert.True(ours.Any(n => n.Chord.Root.PitchClass == root && n.Chord.Bass.PitchClass == bass), $"{row[1]}: {name}");
        }
    });

    [Fact]
    public void WhereOurFirstNameDiffersTonalHasNoneOrRanksOtherwise() => Assert.All(Rows["detect"].Where(r => r[2].Length > 0), row =>
    {
        var (ours, theirs) = (Rank(row), row[2].Split(' ').Select(name => RootAndBass(name, row[1])).ToList());
        var first = ours[0];
        var listed = theirs.Contains((first.Chord.Root.PitchClass, first.Chord.Bass.PitchClass));
        var unknown = !first.LeftOut.IsEmpty || !first.Chord.Notes.Contains(first.Chord.Bass) || !KnownKinds.Contains(Mask(first.Chord));
        Assert.True(listed || unknown, $"{row[1]}: {row[2]}; ours: {first.Symbol}");
    });

    /// <summary>Triads, sevenths and ninths that need no explaining.</summary>
    private static readonly string[] Plain = ["M", "m", "5", "7", "maj7", "m7", "dim", "sus4", "sus2", "m7b5", "7sus4", "6", "m6", "9", "maj9", "m9", "Madd9",
        "madd9", "9sus4", "7b9", "7#9", "13", "m11", "maj7#11", "m/ma7"];

    [Fact]
    public void PlainChordsInRootPositionHaveOneName() =>
        Assert.All(Rows["detect"].Where(r => Plain.Any(kind => FirstOf(r[2]) == r[1].Split(' ')[0] + kind)), row =>
    {
        var (ours, theirs) = (Rank(row)[0].Chord, ChordSymbol.Read(FirstOf(row[2])));
        Assert.Equal((theirs.Root.PitchClass, string.Join(' ', theirs.PitchClasses)), (ours.Root.PitchClass, string.Join(' ', ours.PitchClasses)));
        if (theirs.Notes.All(n => row[1].Split(' ').Contains(n.ToString()))) // where the notes came under other names, ours takes the root with fewer signs
            Assert.Equal(theirs.Root, ours.Root);
    });

    [Fact]
    public void KeysHaveTheSameTriadsAndSevenths() => Assert.All(Rows["key"], row =>
    {
        var key = new Key(PitchName.Parse(row[1]), Mode.Major);
        Assert.Equal(row[2].Split(' ').Select(ChordSymbol.Read), Enumerable.Range(1, 7).Select(key.Triad));
        Assert.Equal(row[3].Split(' ').Select(ChordSymbol.Read), Enumerable.Range(1, 7).Select(key.Seventh));
    });

    // tonal writes every numeral large and the quality behind it; what is compared is the degree. A major chord on the tritone is bV here, #IV there.
    [Fact]
    public void NumeralsStandOnTheSameDegrees() => Assert.All(Rows["numeral"], row =>
    {
        var ours = RomanNumeral.Of(ChordSymbol.Read(row[2]), new Key(PitchName.Parse(row[1]), Mode.Major)).ToString();
        Assert.Equal(Degree(row[3]).Replace("#IV", "TRITONE"), Degree(ours).Replace("#IV", "TRITONE").Replace("bV", Degree(ours) == "bV" ? "TRITONE" : "bV"));
    });

    private static readonly HashSet<int> KnownKinds = [.. Rows["symbol"].Select(r => r[2].Split(' ').Select(n => PitchName.Parse(n).PitchClass).ToList())
        .Select(n => n.Aggregate(0, (mask, pc) => mask | 1 << (pc - n[0] + 12) % 12))];

    private static int Mask(Chord chord) => chord.Notes.Aggregate(0, (mask, n) => mask | 1 << (n.PitchClass - chord.Root.PitchClass + 12) % 12);

    private static IReadOnlyList<ChordName> Rank(string[] row)
    {
        var notes = row[1].Split(' ').Select(PitchName.Parse).ToList();
        return ChordNaming.Rank(notes, notes[0]);
    }

    private static string FirstOf(string names) => names.Split(' ')[0];

    private static string Suffix(string symbol) => symbol[1..].TrimStart('#') is var rest && rest.StartsWith('b')
        && !rest.StartsWith("b9sus", StringComparison.Ordinal) ? rest[1..] : rest;

    /// <summary>tonal prints "Db9sus" for D with b9sus; the notes tell which is meant.</summary>
    private static (int Root, int Bass) RootAndBass(string name, string notes)
    {
        var slash = name.LastIndexOf('/');
        var bass = slash > 0 && PitchName.TryParse(name[(slash + 1)..], out var note) ? note.PitchClass : (int?)null;
        var isFlatNinth = name[1..].StartsWith("b9sus", StringComparison.Ordinal) && notes.Split(' ')
            .All(n => PitchName.Parse(n).PitchClass != PitchName.Parse(name[..2]).PitchClass);
        var length = name.Length > 1 && name[1] is '#' or 'b' && !isFlatNinth ? 2 : 1;
        var root = PitchName.Parse(name[..length]).PitchClass;
        return (root, bass ?? root);
    }

    private static string Degree(string numeral) => string.Concat(numeral.TakeWhile(c => c is '#' or 'b' or 'I' or 'V' or 'i' or 'v')).ToUpperInvariant()
        .Replace('B', 'b');

    private static string Folder()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Harkbook.slnx")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException($"No Harkbook.slnx above {AppContext.BaseDirectory}.");
        return Path.Combine(folder, "tests", "Music", "Reference");
    }
}
