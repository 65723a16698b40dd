namespace Harkbook.Music.Songs.Reading;

/// <summary>Reads who sings or plays the tune, before the sections or in one: "tune lead guitar".</summary>
internal static class TunePlayerLine
{
    private static readonly string[] Words = [.. Enum.GetValues<TunePlayer>().Select(p => p.InWords())];

    /// <summary>Null, with a diagnostic, where it is nobody that a song file knows.</summary>
    public static TunePlayer? Read(LineSyntax line, DiagnosticBag bag)
    {
        var player = TunePlayers.Read(string.Join(' ', line.Words().Select(w => w.Text)));
        if (player is null)
            bag.Add(DiagnosticCode.BadTunePlayer, line.Body.Length > 0 ? line.Body : line.Keyword.Span,
                $"A tune is for {string.Join(", ", Words[..^1])} or {Words[^1]}, as in tune {Words[0]}; "
                    + "its notes stand between | in a section, as in tune | A4 . B4 . |.",
                NearestWord.Suggest(line.BodyText, Words));
        return player;
    }
}
