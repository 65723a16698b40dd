using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Voicings;

/// <summary>
/// Visits every combination of muted, open and pressed strings that one hand position reaches. Each combination is visited once:
/// in the position of its lowest pressed fret.
/// </summary>
internal sealed class NeckWalk
{
    private const int Muted = -1;

    private readonly Fretboard board;
    private readonly Func<int, int, bool> admits;
    private readonly VoicingOptions options;
    private readonly Action<int[]> visit;
    private readonly int[][] choices;
    private readonly int[] frets;
    private int position;

    /// <param name="admits">Whether a string (index) may sound at a fret (from the capo).</param>
    /// <param name="visit">Gets one fret a string, −1 where muted; the array is reused.</param>
    public NeckWalk(Fretboard board, VoicingOptions options, Func<int, int, bool> admits, Action<int[]> visit)
    {
        options.Require();
        (this.board, this.options, this.admits, this.visit) = (board, options, admits, visit);
        frets = new int[board.Tuning.Count];
        choices = new int[board.Tuning.Count][];
    }

    public void Walk()
    {
        var last = Enumerable.Range(0, frets.Length).Max(i => board.FromNut(i, Math.Min(options.MaxFret, board.LastFret(i))));
        for (position = board.Capo.Fret; position <= last; position++)
        {
            for (var i = 0; i < frets.Length; i++)
                choices[i] = [.. Choices(i)];
            Place(0, pressedAtPosition: position == board.Capo.Fret, sounded: false, gap: 0, gaps: 0);
        }
    }

    /// <summary>Position 0 (the capo) holds the shapes that press nothing.</summary>
    private IEnumerable<int> Choices(int stringIndex)
    {
        yield return Muted;
        if (admits(stringIndex, 0))
            yield return 0;
        if (position == board.Capo.Fret || options.UnpressedStrings.Contains(stringIndex))
            yield break;
        var nearest = position - board.Capo.Raises(stringIndex);
        for (var fret = nearest; fret <= Math.Min(options.MaxFret, board.LastFret(stringIndex)) && InReach(stringIndex, fret); fret++)
        {
            if (fret > 0 && admits(stringIndex, fret))
                yield return fret;
        }
    }

    private bool InReach(int stringIndex, int fret)
    {
        var fromNut = board.FromNut(stringIndex, fret);
        return fromNut - position <= (options.MaxSpan ?? int.MaxValue)
            && options.Hand.Distance(position, fromNut) <= options.Hand.LongestReach;
    }

    private void Place(int i, bool pressedAtPosition, bool sounded, int gap, int gaps)
    {
        if (i == frets.Length)
        {
            if (pressedAtPosition && sounded)
                visit(frets);
            return;
        }
        foreach (var fret in choices[i])
        {
            frets[i] = fret;
            if (fret == Muted)
                Place(i + 1, pressedAtPosition, sounded, sounded ? gap + 1 : 0, gaps);
            else if (gaps + gap <= options.MaxMutedInner)
                Place(i + 1, pressedAtPosition || IsAtPosition(i, fret), true, 0, gaps + gap);
        }
    }

    private bool IsAtPosition(int i, int fret) => fret > 0 && board.FromNut(i, fret) == position;
}
