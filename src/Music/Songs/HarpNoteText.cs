using System.Globalization;
using Harkbook.Music.Instruments;

namespace Harkbook.Music.Songs;

/// <summary>Notes on a harmonica as a song file writes them: "+4" blow, "-4" draw, a ' for each semitone bent down, "o" for an over-bend.</summary>
internal static class HarpNoteText
{
    public static bool TryRead(string text, out HarpNote note)
    {
        note = default;
        var digits = text.Skip(1).TakeWhile(char.IsAsciiDigit).Count();
        if (digits is 0 or > 2 || text[0] is not ('+' or '-'))
            return false;
        var hole = int.Parse(text.AsSpan(1, digits), NumberStyles.None, CultureInfo.InvariantCulture);
        var bend = text[(1 + digits)..] switch
        {
            "" => 0,
            "o" => 1,
            var marks when marks.All(c => c == '\'') && marks.Length <= 4 => -marks.Length,
            _ => int.MaxValue,
        };
        note = new(hole, text[0] == '+' ? Breath.Blow : Breath.Draw, bend);
        return hole is >= 1 and <= 16 && bend != int.MaxValue;
    }

    public static string Write(HarpNote note) =>
        $"{(note.Breath == Breath.Blow ? '+' : '-')}{note.Hole}{(note.Bend > 0 ? "o" : new string('\'', -note.Bend))}";
}
