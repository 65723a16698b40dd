using Harkbook.Music.Songs;

namespace Harkbook.App.Tests.Errors;

/// <summary>One song file for every mistake that leaves no song.</summary>
internal static class SongMistakes
{
    private const string Head = "title Far\ntuning D2 A2 D3 F#3 A3 D4\nshape G@low 020100\n";
    private const string Section = Head + "section A\nchords | D |\nsung | x |\n";

    public static IReadOnlyDictionary<DiagnosticCode, string> Files { get; } = new Dictionary<DiagnosticCode, string>
    {
        [DiagnosticCode.UnknownWord] = Head + "tunning D2\n",
        [DiagnosticCode.MissingValue] = Head + "key\n",
        [DiagnosticCode.GivenTwice] = Head + "title Near\n",
        [DiagnosticCode.MissingTitle] = "key D major\n",
        [DiagnosticCode.BadRecording] = Head + "recording a.wav length x\n",
        [DiagnosticCode.BadPitch] = Head + "pitch A4 = 4423 Hz\n",
        [DiagnosticCode.BadTuning] = "title Far\ntuning D2 H2\n",
        [DiagnosticCode.BadCapo] = Head + "capo 13\n",
        [DiagnosticCode.BadNames] = Head + "names hands\n",
        [DiagnosticCode.BadMeter] = Head + "meter 4/5\n",
        [DiagnosticCode.BadCount] = Head + "count thirds\n",
        [DiagnosticCode.BadTempo] = Head + "tempo 401\n",
        [DiagnosticCode.BadKey] = Head + "key D mixolidian\n",
        [DiagnosticCode.BadTunePlayer] = Head + "tune drum\n",
        [DiagnosticCode.BadHarp] = Head + "harp H\n",
        [DiagnosticCode.BadShape] = Head + "shape D 02k\n",
        [DiagnosticCode.ShapeStrings] = Head + "shape D 02210\n",
        [DiagnosticCode.BadFingers] = Head + "shape D 022100 fingers 12\n",
        [DiagnosticCode.BadChord] = Head + "section A\nchords | H |\n",
        [DiagnosticCode.UnknownShape] = Head + "section A\nchords | G@lo |\n",
        [DiagnosticCode.BadPattern] = Head + "pattern from | d |\n",
        [DiagnosticCode.UnknownPattern] = Section + "strum Rolling\n",
        [DiagnosticCode.PatternMeter] = Section + "meter 5/4\nchords | D |\nsung | . |\nstrum throughout from 1 | d |\n",
        [DiagnosticCode.UnknownSection] = Head + "section A like B\n",
        [DiagnosticCode.BadAnchor] = Section + "anchors 1 0:02\n",
        [DiagnosticCode.AnchorOutside] = Section + "anchors 9 = 0:02\n",
        [DiagnosticCode.AnchorNotRising] = Section + "anchors 1 = 0:02 2 = 0:01\n",
        [DiagnosticCode.AnchorPastEnd] = "title Far\nrecording a.wav length 0:10\nsection A\nanchors 1 = 0:11\nchords | D |\n",
        [DiagnosticCode.OutsideSection] = Head + "chords | D |\n",
        [DiagnosticCode.NoBars] = Section + "strum\n",
        [DiagnosticCode.BadFrom] = Section + "strum from x | d |\n",
        [DiagnosticCode.BarOpen] = Section + "strum | d\n",
        [DiagnosticCode.BarText] = Section + "strum d | d |\n",
        [DiagnosticCode.RepeatSign] = Section + "strum |: d :|\n",
        [DiagnosticCode.BarTwice] = Section + "sung from 1 | x |\n",
        [DiagnosticCode.BarCount] = Section + "strum | d | d |\n",
        [DiagnosticCode.TooManyCells] = Section + $"strum |{string.Concat(Enumerable.Repeat(" d", 65))} |\n",
        [DiagnosticCode.EmptyCell] = Section + "strum | d, |\n",
        [DiagnosticCode.BadMark] = Head + "section A\nchords | D?101 |\n",
        [DiagnosticCode.BadStroke] = Section + "strum | q |\n",
        [DiagnosticCode.BadTuneNote] = Section + "tune | A |\n",
        [DiagnosticCode.BadHarpNote] = Section + "harp | 4 |\n",
        [DiagnosticCode.UnknownString] = Section + "pick\nG3 | 0 |\n",
        [DiagnosticCode.StringTwice] = Section + "pick\nA3 | 0 |\nA3 | 0 |\n",
        [DiagnosticCode.NoShape] = Section + "pick\nA3 | * |\n",
        [DiagnosticCode.BadPickedNote] = Section + "pick\nA3 | q2 |\n",
        [DiagnosticCode.BadStanding] = Head + "key D major ~herd\n",
    };
}
