using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Harkbook.Audio.Tests.Recordings;

namespace Harkbook.App.Tests.Errors;

/// <summary>Songs, claims and annotations that can't be used.</summary>
internal static class SongCases
{
    private const string NoRecording = "title Far\nsection A\nchords | A |\n";

    /// <summary>A bar of so many cells, a chord in each.</summary>
    private static string Cells(int count) => string.Concat(Enumerable.Range(0, count).Select(i => i % 2 == 0 ? " A" : " D")) + " ";

    public static ErrorCase[] All { get; } =
    [
        new("no `harp` line says which", s => s.File("a.hark", NoRecording), "harps", "a.hark"),
        new("nothing to practise", s => s.File("a.hark", "title Far\nsection A\nchords | _ |\n"), "exercise", "a.hark"),
        new("no change to practise", s => s.File("a.hark", NoRecording), "exercise", "a.hark", "--change"),
        new("the file of taps isn't there", s => s.File("a.hark", NoRecording), "taps", "a.hark", "gone.txt"),
        new("a line of taps is none", s => s.File("a.hark", NoRecording).File("taps.txt", "0:01 oh\nsoon\n"), "taps", "a.hark", "taps.txt"),
        new("tapped bars don't fit the song", s => s.File("a.hark", NoRecording).File("taps.txt", "0:01 |9\n"), "taps", "a.hark", "taps.txt"),
        new("tapped bars don't fit the song", s => s.File("a.hark", NoRecording).File("beats.txt", "0:01 |1.2\n"), "taps", "a.hark", "beats.txt"),
        new("an edit would make mistakes", s => s.File("a.hark", "title Far\nsection A\nanchors 2 = 0:01\nchords | A | A |\n").File("taps.txt", "0:03 |1\n"),
            "taps", "a.hark", "taps.txt", "--write"),
        new("no tap falls into the song", s => s.File("a.hark", NoRecording).File("taps.txt", "9:00\n"), "taps", "a.hark", "taps.txt"),
        new("the harmonica is silent", s => s.File("a.hark", "title Far\nharp C\nsection A\nchords | A |\n"), "harps", "a.hark"),
        new("the harmonica is silent", s => s.File("a.hark", "title Far\nharp C\nsection A\nharp | +4 |\nsection B\nchords | A |\n"), "harps", ".",
            "--section", "b"),
        new("it isn't there", _ => { }, "check", "gone"),
        new("it isn't there", _ => { }, "publish", "gone.hark"),
        new("a shelf of songs is empty", _ => { }, "setlist", "."),
        new("a shelf of songs is empty", _ => { }, "songbook", "."),
        new("it isn't there", _ => { }, "setlist", "gone"),
        new("the folder holds none", _ => { }, "audition", "."),
        new("the folder holds several", s => s.File("a.hark", NoRecording).File("b.hark", NoRecording), "check", "."),
        new("the file is no text", s => s.Take(), "publish", "take.wav"),
        new("the file is no text", s => s.Take(), "check", "take.wav", "take.wav"),
        new("it has mistakes", s => s.File("a.hark", "titel Far\n"), "check", "a.hark"),
        new("it has mistakes", s => s.File("a.hark", NoRecording + "chords | H |\n"), "audition", "a.hark"),
        new("it has mistakes", s => s.File("a.hark", NoRecording + "sung | x | x |\n"), "publish", "a.hark", "--into", "lesson"),
        new("it has no bars", s => s.File("a.hark", "title Far\n"), "publish", "a.hark"),
        new("bars to hand out lie beyond the recording",
            s => s.Take().File("a.hark", "title Far\nrecording take.wav\nsection A\nanchors 1 = 9:00\nchords | A |\n"), "publish", "a.hark", "--bars", "1"),
        new("it has no bars", s => s.File("a.hark", "title Far\nsection A\n"), "audition", "a.hark"),
        new("its capo stops only some strings", s => s.File("a.hark", "title Far\ncapo 2 on A2 D3\nsection A\nchords | A |\n"), "publish",
            "a.hark", "--capo", "3"),
        new("a capo takes notes away", s => s.File("a.hark", "title Far\nsection A\npick\nE2 | 0 |\n"), "publish", "a.hark", "--capo", "3"),
        new("it names no recording", s => s.File("a.hark", NoRecording), "check", "a.hark"),
        new("it names no recording", s => s.File("a.hark", NoRecording), "audition", "a.hark", "--against"),
        new("its recording isn't there", s => s.Song(), "check", "song"),
        new("its recording isn't there", s => s.Song(), "publish", "song"),
        new("`start` finds another recording there", s => s.Take().File("song/take.wav", Bytes.Wave(8000, 1, 16, 1, Bytes.Tone16(8000, 3))), "start",
            "take.wav", "--into", "song"),
        new("`start` finds a song there", s => s.Take().File("song/take.hark", NoRecording), "start", "take.wav", "--into", "song"),

        new("`start --again` fits no more",
            s => s.Take().File("song/take.hark", "title Far\ntuning E2 ~heard 10%\ncapo none\nshape A 0\nsection A\nchords | A |\n"), "start", "take.wav",
            "--into", "song", "--again", "--tuning", "D2 A2"),
        new("`start --again` with another tuning than picked lines were written for",
            s => s.Take().File("song/take.hark", "title Far\ntuning E2 ~heard 10%\ncapo none\nshape A 0\nsection A\npick\nE2 | 0 |\n"), "start", "take.wav",
            "--into", "song", "--again", "--tuning", "D2"),
        new("`rebar` leaves the range of tempi", s => s.File("a.hark", "tempo 30\n" + NoRecording), "rebar", "a.hark", "--tempo", "half"),
        new("`rebar` finds no bars", s => s.File("a.hark", "title Far\n"), "rebar", "a.hark", "--tempo", "half"),
        new("`rebar` moves bars by whole bars", s => s.File("a.hark", NoRecording), "rebar", "a.hark", "--later", "4"),
        new("`rebar` finds too fine a rhythm", s => s.File("a.hark", "title Far\nsection A\nchords |" + Cells(61) + "|" + Cells(59) + "|\n"), "rebar", "a.hark",
            "--later", "1"),
        new("a chord has one name", s => s.File("a.hark", NoRecording), "names", "a.hark", "hand"),
        new("nothing to undo", s => s.File("a.hark", NoRecording), "rebar", "a.hark", "--undo"),
        new("edited since", s => s.File("a.hark", NoRecording)
            .File("a.earlier-1.txt", $"; the song as it was on 2026-11-25 before 'rebar --tempo half', which made the file with sha256 {new string('0', 64)}\n"
            + NoRecording), "rebar", "a.hark", "--undo"),

        new("`open`'s folder isn't there", _ => { }, "open", "gone", "--no-browser"),
        new("`open` can't have its port", s => s.Song(), "open", ".", "--no-browser", "--port", TakenPort.Number),
        new("the annotation isn't there", s => s.Take(), "check", "take.wav", "gone.jams"),
        new("`check` isn't told the recording", _ => { }, "check", "a.jams"),
        new("a JAMS file is no JSON", s => s.Take().File("a.jams", "{\n"), "check", "take.wav", "a.jams"),
        new("a JAMS file is no JSON", s => s.Take().File("take.jams", ""), "eval", "."),
        new("a JAMS file lacks a part", s => s.Take().File("a.jams", "{}"), "check", "take.wav", "a.jams"),
        new("a JAMS value is of the wrong kind", s => s.Take().File("a.jams", Jams("note_midi", "\"C4\"")), "check", "take.wav", "a.jams"),
        new("a JAMS tuning is none", s => s.Take().File("a.jams", """{"file_metadata":{},"annotations":[],"sandbox":{"tuning":["H2"]}}"""), "check",
            "take.wav", "a.jams"),
        new("a chord label is none", s => s.Take().File("a.jams", Jams("chord", "\"H:maj\"")), "check", "take.wav", "a.jams"),
        new("a chord label is none", s => s.Take().File("take.jams", Jams("chord", "\"D:hum\"")), "eval", "."),
        new("a time is none", s => s.Take().File("a.jams", Jams("chord", "\"D:maj\"", "1e999")), "check", "take.wav", "a.jams"),
        new("a pitch is none", s => s.Take().File("a.jams", Jams("note_midi", "1e9")), "check", "take.wav", "a.jams"),
        new("a pitch is none", s => s.Take().File("b.jams", Jams("note_hz", "-5")), "check", "take.wav", "b.jams"),
        new("a MIDI file is none", s => s.Take().File("a.mid", "MThd"), "check", "take.wav", "a.mid"),
        new("a label among chords is none", s => s.Take().File("a.lab", "0 1 D:maj\n1 2 F#m7\n2 3 later\n"), "check", "take.wav", "a.lab"),
        new("a line of a label file is none", s => s.Take().File("a.lab", "0 1 D:maj\nlater\n"), "check", "take.wav", "a.lab"),
        new("there is nothing to weigh", s => s.Take().File("a.lab", ""), "check", "take.wav", "a.lab"),
        new("`eval` is given a file", s => s.Take(), "eval", "take.wav"),
        new("`eval`'s folder isn't there", _ => { }, "eval", "gone"),
        new("`eval`'s folder holds no pair", s => s.Take(), "eval", "."),
    ];

    /// <summary>A port that these tests hold until they end.</summary>
    private static class TakenPort
    {
        private static readonly TcpListener Holder = Held();

        public static string Number => ((IPEndPoint)Holder.LocalEndpoint).Port.ToString(CultureInfo.InvariantCulture);

        private static TcpListener Held()
        {
            var listener = new TcpListener(IPAddress.Loopback, 0);
            listener.Start();
            return listener;
        }
    }

    private static string Jams(string kind, string value, string duration = "1") =>
        $$"""{"file_metadata":{"duration":2},"annotations":[{"namespace":"{{kind}}","data":[{"time":0,"duration":{{duration}},"value":{{value}}}]}]}""";
}
