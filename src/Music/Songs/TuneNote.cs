using System.Diagnostics.CodeAnalysis;
using System.Text.RegularExpressions;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>
/// One note of a tune: its pitch, how it is reached, and what becomes of it. Written "A4", "sB4" (glided to from the note before), "/A4" and "\A4" (from
/// somewhere below or above), "A4bB4" (bent until it sounds as B4), "Eb4b+1/2" (a quarter tone), "A4bB4r" (and back), "A4~" (vibrato), "A4/" and "A4\"
/// (left by a glide).
/// </summary>
public readonly partial record struct TuneNote(Pitch Pitch, Approach Approach = Approach.Straight)
{
    public Bend Bend { get; init; }

    public bool HasVibrato { get; init; }

    public SlideOff SlideOff { get; init; }

    /// <summary>
    /// False where the text is no note, its pitch lies outside C-1 to G9 (MIDI 0 to 127), or it is bent down or further than <see cref="Bend.Most"/>.
    /// </summary>
    public static bool TryParse([NotNullWhen(true)] string? text, out TuneNote note)
    {
        note = default;
        if (Pattern().Match(text ?? "") is not { Success: true } match || !Pitch.TryParse(match.Groups["pitch"].Value, out var pitch)
            || pitch.Midi is < 0 or > 127 || !TryReadBend(match, pitch, out var bend))
            return false;
        note = new(pitch, ApproachOf(match.Groups["start"].Value))
        {
            Bend = bend,
            HasVibrato = match.Groups["vibrato"].Success,
            SlideOff = match.Groups["off"].Value switch { "/" => SlideOff.Up, "\\" => SlideOff.Down, _ => SlideOff.None },
        };
        return true;
    }

    public static TuneNote Parse(string text) => TryParse(text, out var note) ? note
        : throw new FormatException($"'{text}' is no note of a tune; write a pitch with its octave, as in F#4 (C4 is middle C).");

    public override string ToString() =>
        $"{Sign(Approach)}{Pitch}{BendText}{(HasVibrato ? "~" : "")}{SlideOff switch { SlideOff.Up => "/", SlideOff.Down => "\\", _ => "" }}";

    /// <summary>The pitch that is meant: a bend's top; one of a quarter tone leaves the note its name.</summary>
    public Pitch Meant => Quarters < 2 ? Pitch
        : Pitch.FromMidi(Pitch.Midi + Quarters / 2, PitchName.FromPitchClass((Pitch.Midi + Quarters / 2) % 12, Pitch.Name.Fifths));

    private int Quarters => (int)Math.Round(Bend.By.Value / 50);

    private string BendText => Bend.IsNone ? "" : $"{(Bend.IsBefore ? "p" : "")}b{BentTo}{(Bend.IsReleased ? "r" : "")}";

    /// <summary>"B4", "B4+1/2"; within a half step "+1/2" alone.</summary>
    private string BentTo => (Quarters < 2 ? "" : Meant.ToString()) + (Quarters % 2 == 1 ? "+1/2" : "");

    private static bool TryReadBend(Match match, Pitch pitch, out Bend bend)
    {
        bend = default;
        if (!match.Groups["bend"].Success)
            return true;
        var to = pitch;
        if (match.Groups["to"].Success && !Pitch.TryParse(match.Groups["to"].Value, out to))
            return false;
        var by = Cents.FromCents(100.0 * (to.Midi - pitch.Midi) + (match.Groups["half"].Success ? 50 : 0));
        bend = new(by, match.Groups["before"].Success, match.Groups["back"].Success);
        return by > default(Cents) && by <= Bend.Most;
    }

    private static Approach ApproachOf(string sign) => sign switch
    {
        "s" => Approach.FromNoteBefore,
        "/" => Approach.FromBelow,
        "\\" => Approach.FromAbove,
        _ => Approach.Straight,
    };

    private static string Sign(Approach approach) => approach switch
    {
        Approach.FromNoteBefore => "s",
        Approach.FromBelow => "/",
        Approach.FromAbove => "\\",
        _ => "",
    };

    [GeneratedRegex("""
        ^ (?<start>[s/\\])? (?<pitch>[A-G](?:\#+|b+)?-?[0-9]+)
          (?<bend> (?<before>p)? b (?<to>[A-G](?:\#+|b+)?-?[0-9]+)? (?<half>\+1/2)? (?<back>r)? )?
          (?<vibrato>~)? (?<off>[/\\])? $
        """, RegexOptions.IgnorePatternWhitespace | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Pattern();
}
