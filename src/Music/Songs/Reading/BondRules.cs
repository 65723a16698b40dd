using System.Globalization;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>
/// A note that is hammered on, pulled off or slid to goes on from one that sounds on its string: picked there before in its section, or strummed.
/// </summary>
internal static class BondRules
{
    public static void Check(SectionSyntax section, Func<int, Meter> meterOf, DiagnosticBag bag)
    {
        var voices = section.Voices();
        if (voices.Contains(new(SongPart.Pick, Voice.BassIndex)))
            return;
        var strokes = Signs(section, new(SongPart.Strum), meterOf).FirstOrDefault(s => !s.Sign.Leaf.Silences);
        foreach (var voice in voices.Where(v => v.Part == SongPart.Pick))
        {
            var sounds = false;
            foreach (var (bar, sign) in Signs(section, voice, meterOf))
            {
                var strummed = strokes.Sign is { } first && (strokes.Bar, first.Start).CompareTo((bar, sign.Start)) < 0;
                if (!sounds && !strummed && Word(sign.Leaf.Value.Text) is { } word && section.Lines.Contains(sign.Line))
                    Say(sign, word, bag);
                sounds = !sign.Leaf.Silences;
            }
        }
    }

    private static IEnumerable<(int Bar, PlacedLeaf Sign)> Signs(SectionSyntax section, Voice voice, Func<int, Meter> meterOf) =>
        PickedBars.Placed(section, voice, meterOf).Where(b => b.Key <= section.BarCount).OrderBy(b => b.Key)
            .SelectMany(b => b.Value.Select(sign => (b.Key, sign)));

    private static string? Word(string note) => note.Length > 1 && char.IsAsciiDigit(note[1])
        ? note[0] switch { 'h' => "hammered on", 'p' => "pulled off", 's' => "slid to", _ => null } : null;

    private static void Say(PlacedLeaf sign, string word, DiagnosticBag bag)
    {
        if (sign.Line.Standings.Concat(sign.Line.Fallback).Any(s => s.Standing.Kind == StandingKind.Heard))
            return;
        var note = sign.Leaf.Value.Text;
        bag.Add(DiagnosticCode.NothingBefore, sign.Leaf.Value.Span, $"{note} is {word} from the note before on its string, and none sounds there.",
            $"Write that note before it, as a cell of its own or as a grace note, such as {Graced(note)}.");
    }

    /// <summary>From two frets away, or from the open string: "0h1", "2p0", "5s7".</summary>
    private static string Graced(string note)
    {
        var fret = int.Parse(string.Concat(note.Skip(1).TakeWhile(char.IsAsciiDigit).Take(2)), CultureInfo.InvariantCulture);
        return string.Create(CultureInfo.InvariantCulture, $"{(note[0] == 'p' ? fret + 2 : Math.Max(0, fret - 2))}{note[0]}{fret}");
    }
}
