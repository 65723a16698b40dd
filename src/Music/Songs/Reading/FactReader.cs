using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Reads the facts. Facts that aren't given are assumed, and one hint says so; one that can't be read is null.</summary>
internal sealed class FactReader(SongSyntax syntax, DiagnosticBag bag, StandingReader standings)
{
    private readonly SortedDictionary<SongFact, string> assumed = [];

    /// <summary>Says in one hint what was assumed of all that was read before.</summary>
    public void SayWhatIsAssumed()
    {
        if (assumed.Count > 0)
            bag.Add(DiagnosticCode.NotGiven, new(0, 0), $"Not said, so assumed: {string.Join(", ", assumed.Values)}.");
    }

    public string? Title()
    {
        if (!syntax.Facts.ContainsKey(SongFact.Title))
            bag.Add(DiagnosticCode.MissingTitle, new(0, 0), "The song has no title.", "Start the file with a line such as: title The Ferry at Hollin Reach");
        return PlainText(SongFact.Title);
    }

    public string? Player() => PlainText(SongFact.Player);

    public string? Album() => PlainText(SongFact.Album);

    public RecordingReference? Recording()
    {
        if (Line(SongFact.Recording) is not { } line)
            return null;
        standings.Refuse(line, "The recording");
        var words = line.Words();
        var tail = words.Select((w, i) => (w, i)).FirstOrDefault(p => p.i > 0 && p.w.Text is "length" or "sha256", (default, words.Length)).i;
        var path = Quoted.Unwrap(line.Text[words[0].Start..words[tail - 1].Span.End]);
        var (length, hash) = ((Seconds?)null, (string?)null);
        for (var i = tail; i < words.Length; i += 2)
        {
            var value = i + 1 < words.Length ? words[i + 1] : new Token("", words[i].Span.End);
            if (words[i].Text == "length" && TimeText.TryRead(value.Text, out var time))
                length = time;
            else if (words[i].Text == "sha256" && value.Text.Length == 64 && value.Text.All(char.IsAsciiHexDigit))
                hash = value.Text.ToLowerInvariant();
            else
                bag.Add(DiagnosticCode.BadRecording, words[i].Text is "length" or "sha256" ? value.Span : words[i].Span,
                    "Behind the file's name may stand its length, as in length 1:23.412, and its SHA-256 sum, as in sha256 and 64 hexadecimal digits.");
        }
        if (path[..Math.Min(1, path.Length)] is "/" or "\\" || path.Contains(':') || path.Split('/', '\\').Contains(".."))
            bag.Add(DiagnosticCode.RecordingElsewhere, words[0].Span, "The recording lies outside the song's folder, so the folder can't be handed on whole.",
                "Put it beside the song file and write its name only.");
        return new(path, hash, length);
    }

    public Fact<Hertz>? Pitch() => Read(SongFact.Pitch, Hertz.A440, "A4 = 440 Hz", DiagnosticCode.BadPitch,
        "The pitch is what A4 is, 380 to 500 Hz, as in pitch A4 = 442.3 Hz.", line =>
        {
            var words = line.Words().Select(w => w.Text).Where(w => w is not ("A4" or "=" or "Hz")).ToList();
            return words.Count == 1 && TryNumber(words[0], out var hertz) && hertz is >= 380 and <= 500 ? Hertz.FromHertz(hertz) : null;
        });

    public Fact<Tuning>? Tuning() => ReadObject(SongFact.Tuning, Instruments.Strings.Tuning.Standard, "standard tuning", DiagnosticCode.BadTuning,
        "A tuning is 1 to 12 open strings from the low side by pitch (C4 is middle C), as in tuning D2 A2 D3 F#3 A3 D4, a guitar's by letters, as in tuning D "
            + $"A D G A D, or a name: {string.Join(", ", TuningWords.Names)}.",
        line => TuningWords.Read(line.BodyText)?.Tuning, MistakenStrings, TuningWords.Names);

    /// <summary>Among pitches, the words that are none; else the whole name.</summary>
    private static IEnumerable<Token> MistakenStrings(LineSyntax line) =>
        line.Words().Any(w => Theory.Pitch.TryParse(w.Text, out _)) ? line.Words().Where(w => !Theory.Pitch.TryParse(w.Text, out _))
            : [new(line.BodyText, line.Body.Start)];

    public Fact<Capo>? Capo(Tuning? tuning) => Read(SongFact.Capo, Instruments.Strings.Capo.None, "no capo", DiagnosticCode.BadCapo,
        "A capo is none or a fret from 1 to 12, and where it stops only some strings, those, as in capo 2 on A2 D3 G3.",
        line => ReadCapo(line, tuning));

    /// <summary>Whether the file's names are the hand's; a hint that it doesn't say would be noise.</summary>
    public bool HandNames(Capo capo)
    {
        if (Line(SongFact.Names) is not { } line)
            return false;
        standings.Refuse(line, "Whose names the file writes");
        if (line.BodyText is not ("hand" or "sound"))
            bag.Add(DiagnosticCode.BadNames, line.Body,
                "The names of chords, shapes and keys are what sounds, as in names sound, or what the hand plays as if there were no capo, as in names hand.",
                NearestWord.Suggest(line.BodyText, ["sound", "hand"]));
        else if (line.BodyText == "hand" && capo.IsPartial)
            bag.Add(DiagnosticCode.BadNames, line.Body, "Under a capo that stops only some strings the hand's shapes have no names of their own.",
                "Write what sounds, and names sound.");
        return line.BodyText == "hand" && !capo.IsPartial;
    }

    public Fact<Meter>? Meter() => Read(SongFact.Meter, Theory.Meter.CommonTime, "4/4", DiagnosticCode.BadMeter,
        "A meter is written 4/4, 3/4 or 6/8: 1 to 32 over 1, 2, 4, 8 or 16.", line => Theory.Meter.TryParse(line.BodyText, out var meter) ? meter : null);

    public Counting Counting()
    {
        if (Line(SongFact.Count) is not { } line)
            return Theory.Counting.Beats;
        standings.Refuse(line, "The count");
        switch (line.BodyText)
        {
            case "beats":
                return Theory.Counting.Beats;
            case "eighths":
                return Theory.Counting.Divisions;
            default:
                bag.Add(DiagnosticCode.BadCount, line.Body, "The count is beats (6/8 as 1 la li 2 la li) or eighths (6/8 as 1 2 3 4 5 6), as in count eighths.",
                    NearestWord.Suggest(line.BodyText, ["beats", "eighths"]));
                return Theory.Counting.Beats;
        }
    }

    public Fact<double>? Tempo() => Read(SongFact.Tempo, 120.0, "tempo 120", DiagnosticCode.BadTempo,
        "A tempo is 20 to 400 felt beats a minute, as in tempo 96.", line => TryNumber(line.BodyText, out var tempo) && tempo is >= 20 and <= 400
            ? tempo : null);

    public Fact<Key>? Key() => ReadObject(SongFact.Key, new Key(PitchName.Parse("C"), Mode.Major), "C major", DiagnosticCode.BadKey,
        $"A key is a tonic and one of {string.Join(", ", Mode.All)}, as in key D mixolydian.",
            line => Theory.Key.TryParse(line.BodyText, out var key) ? key : null,
        line => line.Words().Skip(1).Take(1), Mode.All.Select(m => m.Name));

    public Fact<TunePlayer>? TunePlayer()
    {
        if (Line(SongFact.Tune) is not { } line)
            return null;
        var standing = standings.ReadOne(line, Standing.Decided);
        return TunePlayerLine.Read(line, bag) is { } player ? new(player, standing) : null;
    }

    public Fact<HarpReference>? Harp()
    {
        if (Line(SongFact.Harp) is not { } line)
            return null;
        var words = line.Words().Select(w => w.Text).ToList();
        var standing = standings.ReadOne(line, Standing.Decided);
        var octave = words[0] switch { "low" => -1, "high" => 1, _ => 0 };
        var named = octave == 0 ? words : words[1..];
        var layout = named.ElementAtOrDefault(1) ?? HarpLayout.Usual;
        if (named.Count is 1 or 2 && PitchName.TryParse(named[0], out var key) && HarpLayout.Find(layout) is not null)
            return new(new(key, layout, octave), standing);
        bag.Add(DiagnosticCode.BadHarp, line.Body, "A harp is its key, low or high before it where it is one, and its layout "
            + $"({string.Join(", ", HarpLayout.All.Select(l => l.Name))}; richter when none is given), as in harp D richter or harp low F.",
            NearestWord.Suggest(layout, HarpLayout.All.Select(l => l.Name)));
        return null;
    }

    private Capo? ReadCapo(LineSyntax line, Tuning? tuning)
    {
        var words = line.Words().Select(w => w.Text).ToList();
        if (words is ["none"])
            return Instruments.Strings.Capo.None;
        if (!int.TryParse(words[0], NumberStyles.None, CultureInfo.InvariantCulture, out var fret) || fret > 12)
            return null;
        if (words.Count == 1)
            return Instruments.Strings.Capo.At(fret);
        if (words[1] != "on" || words.Count == 2 || fret == 0)
            return null;
        var strings = StringLabels.Find(words.Skip(2), tuning ?? Instruments.Strings.Tuning.Standard);
        return strings.Contains(-1) ? null : Instruments.Strings.Capo.At(fret, strings);
    }

    private string? PlainText(SongFact fact)
    {
        if (Line(fact) is not { } line)
            return null;
        standings.Refuse(line, $"The {line.Keyword.Text}");
        return Quoted.Unwrap(line.BodyText);
    }

    private Fact<T>? Read<T>(SongFact fact, T usual, string usualText, DiagnosticCode bad, string expected, Func<LineSyntax, T?> read)
        where T : struct =>
        ReadFact(fact, usual, usualText, bad, expected, line => read(line) is { } value ? (true, value) : (false, default), null, []);

    private Fact<T>? ReadObject<T>(SongFact fact, T usual, string usualText, DiagnosticCode bad, string expected, Func<LineSyntax, T?> read,
        Func<LineSyntax, IEnumerable<Token>> culprit, IEnumerable<string>? known = null)
        where T : class =>
        ReadFact(fact, usual, usualText, bad, expected, line => read(line) is { } value ? (true, value) : (false, default!), culprit, known ?? []);

    private Fact<T>? ReadFact<T>(SongFact fact, T usual, string usualText, DiagnosticCode bad, string expected, Func<LineSyntax, (bool, T)> read,
        Func<LineSyntax, IEnumerable<Token>>? culprit, IEnumerable<string> known)
    {
        if (!syntax.Facts.ContainsKey(fact))
        {
            assumed[fact] = usualText;
            return new(usual, Standing.Assumed);
        }
        if (Line(fact) is not { } line)
            return null;
        var standing = standings.ReadOne(line, Standing.Decided);
        if (read(line) is (true, var value))
            return new(value, standing);
        var wrong = culprit?.Invoke(line).FirstOrDefault() ?? default;
        bag.Add(bad, wrong.Text is null ? line.Body : wrong.Span, expected, (bad == DiagnosticCode.BadKey ? KeyLine.Minor(line.BodyText) : null)
            ?? NearestWord.Suggest(wrong.Text ?? "", known));
        return null;
    }

    /// <summary>The fact's line when it has a value.</summary>
    private LineSyntax? Line(SongFact fact)
    {
        if (!syntax.Facts.TryGetValue(fact, out var line))
            return null;
        if (line.Body.Length > 0)
            return line;
        bag.Add(DiagnosticCode.MissingValue, line.Keyword.Span, $"Nothing stands behind '{line.Keyword.Text}'.");
        return null;
    }

    private static bool TryNumber(string text, out double value) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
}
