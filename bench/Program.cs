using System.Globalization;
using Harkbook.Bench.Accuracy;
using Harkbook.Bench.Browsing;
using Harkbook.Bench.Drafts;
using Harkbook.Bench.Folk;
using Harkbook.Bench.Outside;
using Harkbook.Bench.Planted;
using Harkbook.Bench.Rereading;
using Harkbook.Bench.Speed;
using Harkbook.Bench.Sureness;
using Harkbook.Publishing.Drawings;

return args switch
{
    ["speed", var recording] => await SpeedTable.WriteAsync(recording, Console.Out),
    ["publishing", var song] => await SpeedTable.WritePublishingAsync(song, Console.Out),
    ["claims", var recording] => await ClaimSpeed.WriteAsync(recording, Console.Out),
    ["workbench", var chromium] => await BrowserSpeed.WriteAsync(chromium, Console.Out),
    ["outside", var into] => OutsideFolder.Write(OutsidePiece.DebianFolder, into, 600),
    ["outside", var into, var midi] => OutsideFolder.Write(midi, into, 600),
    ["outside", var into, var midi, var seconds] => OutsideFolder.Write(midi, into, double.Parse(seconds, CultureInfo.InvariantCulture)),
    ["folk", var into, var abc] => FolkFolder.Write(abc, into, 60),
    ["beats", var into, var midi, var seconds, var every, .. var rest] when rest is [] or ["guitars"] =>
        OutsideFolder.WriteOnGrid(midi, into, double.Parse(seconds, CultureInfo.InvariantCulture), int.Parse(every, CultureInfo.InvariantCulture),
            rest.Length > 0),
    ["compose", var into, var count, var seed, .. var rest] when rest is [] or ["font"] =>
        ComposedFolder.Write(into, int.Parse(count, CultureInfo.InvariantCulture), int.Parse(seed, CultureInfo.InvariantCulture), rest.Length > 0),
    ["compose", var into, var songbook] => ComposedFolder.WriteSongbook(into, songbook),
    ["planted", .. { Length: > 0 } rest] => await PlantedCommand.RunAsync(rest),
    ["evidence", .. { Length: > 0 } folders] => await EvidenceFolder.HearAsync(folders),
    ["reread", .. { Length: > 0 } folders] => await EvidenceFolder.ScoreAsync(folders, Console.Out),
    ["draft", "told", .. { Length: > 0 } folders] => await DraftFolder.ScoreAsync(folders, told: true, Console.Out),
    ["draft", .. { Length: > 0 } folders] => await DraftFolder.ScoreAsync(folders, told: false, Console.Out),
    ["claimed", .. { Length: > 0 } folders] => await ClaimsAtWork.WriteAsync(folders, Console.Out),
    ["table", .. { Length: > 0 } sets] => WriteTable(sets),
    ["sureness", var svg, .. { Length: > 0 } materials] => DrawSureness(svg, materials),
    _ => Usage(),
};

static int DrawSureness(string svg, string[] materials)
{
    var judged = materials.Select(m => m.Split('=', 2)).Select(m => (m[0], Judged.Read(m[1]))).ToArray();
    File.WriteAllText(svg, SvgWriter.Write(SurenessPlot.Draw(judged), Palette.Paper, SvgText.Outlines));
    return 0;
}

static int WriteTable(string[] sets)
{
    Console.Out.Write(AccuracyTable.Write([.. sets.Select(s => s.Split('=', 2)).Select(s => (s[0], Array.ConvertAll(s[1].Split(','), EvalFile.Read)))]));
    return 0;
}

static int Usage()
{
    Console.Error.WriteLine("""
        dotnet run -c Release --project bench -- speed RECORDING
            times our real FFT against two libraries', and listening against ffmpeg's decoding
        dotnet run -c Release --project bench -- claims RECORDING
            times reading again after one claim of each kind, against hearing the recording for the first time
        dotnet run -c Release --project bench -- publishing SONG.hark
            times a lesson the first time, again, and again after one chord was changed
        dotnet run -c Release --project bench -- workbench CHROMIUM
            times the workbench under a person's hands in that browser: painting, opening, scrolling, deciding, playing, and its memory
        dotnet run -c Release --project bench -- outside INTO [MIDI-FOLDER [SECONDS]]
            renders the folder's steady pieces and writes their truth beside them, for ./harkbook eval INTO
        dotnet run -c Release --project bench -- folk INTO TUNES.abc
            plays the tunes of an ABC file on harmonica and guitar and writes their truth beside them, for ./harkbook eval INTO
        dotnet run -c Release --project bench -- beats INTO MIDI-FOLDER SECONDS EVERY [guitars]
            the same of every so many pieces whose notes lie on sixteenths or triplets, or of their guitars alone: for beats and bars
        dotnet run -c Release --project bench -- compose INTO COUNT SEED [font] | compose INTO SONGBOOK
            composes songs in every part and plays them by our own instruments, or by the small sound font; or plays a songbook's
        dotnet run -c Release --project bench -- evidence FOLDER ...
            hears the folders' recordings once and keeps what was heard beside them
        dotnet run -c Release --project bench -- reread FOLDER ...
            reads that evidence anew and scores each folder's readings against the truth beside them, as JSON: for changes of how evidence is read
        dotnet run -c Release --project bench -- draft [told] FOLDER ...
            drafts songs from that evidence and scores them against the true songs beside it; told: with the true tuning and bars
        dotnet run -c Release --project bench -- claimed FOLDER ...
            what one true claim of each kind mends besides itself, from the folders' kept evidence
        dotnet run -c Release --project bench -- table NAME=[BEFORE.json,]EVAL.json ...
            the table of docs/listening.md, in Markdown, from what 'harkbook eval FOLDER --json' printed of each set
        dotnet run -c Release --project bench -- planted [OPTION=VALUE ...] NAME=FOLDER ...
            plants errors in right transcriptions and says how many the check finds; --places=4 --seed=1 --alarms=2 --hearings=FOLDER
            --json=FILE --plot=FILE --fit=FILE --worst=HOW-MANY right claims that are doubted most
        dotnet run -c Release --project bench -- sureness PLOT.svg NAME=EVAL.json ...
            draws how often estimates were right against how sure they were, from what 'harkbook eval FOLDER --json' printed
        """);
    return 2;
}
