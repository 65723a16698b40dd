using System.Collections.Frozen;
using System.Reflection;
using System.Runtime.InteropServices;

namespace Harkbook.App.Tests.House;

/// <summary>The directions that docs/decisions/0001-layout.md decides, held over the compiled assemblies.</summary>
public class HouseTests
{
    /// <summary>What comes with .NET; a package is none of it, though its name may start with "System".</summary>
    private static readonly FrozenSet<string> Framework = Directory.GetFiles(RuntimeEnvironment.GetRuntimeDirectory(), "*.dll")
        .Select(file => Path.GetFileNameWithoutExtension(file)!).ToFrozenSet(StringComparer.Ordinal);

    private const string Web = "ASP.NET";

    /// <summary>ASP.NET Core, which comes with .NET too; only the workbench needs it.</summary>
    private static readonly FrozenSet<string> WebFramework = Directory.GetFiles(
            RuntimeEnvironment.GetRuntimeDirectory().Replace("Microsoft.NETCore.App", "Microsoft.AspNetCore.App"), "*.dll")
        .Select(file => Path.GetFileNameWithoutExtension(file)!).ToFrozenSet(StringComparer.Ordinal);

    [Theory]
    [InlineData("Harkbook.Units", "")]
    [InlineData("Harkbook.Music", "Harkbook.Units")]
    [InlineData("Harkbook.Audio", "Harkbook.Units NAudio.Core")]
    [InlineData("Harkbook.Listening", "Harkbook.Units Harkbook.Music Harkbook.Audio NAudio.Midi NAudio.Core Microsoft.ML.OnnxRuntime System.Numerics.Tensors")]
    [InlineData("Harkbook.Sounding", "Harkbook.Units Harkbook.Music Harkbook.Audio")]
    [InlineData("Harkbook.Demo", "Harkbook.Units Harkbook.Music Harkbook.Audio Harkbook.Sounding Harkbook.Listening")]
    [InlineData("Harkbook.Publishing", "Harkbook.Units Harkbook.Music Harkbook.Audio Harkbook.Sounding SkiaSharp SkiaSharp.HarfBuzz HarfBuzzSharp")]
    [InlineData("Harkbook.Workbench",
        "Harkbook.Units Harkbook.Music Harkbook.Audio Harkbook.Sounding Harkbook.Listening Harkbook.Publishing Harkbook.Jobs " + Web)]
    [InlineData("Harkbook.Jobs", "Harkbook.Units Harkbook.Music Harkbook.Audio Harkbook.Sounding Harkbook.Listening Harkbook.Publishing")]
    public void AnAssemblyKnowsOnlyThoseBelowIt(string name, string allowed)
    {
        var references = Assembly.Load(name).GetReferencedAssemblies()
            .Select(a => a.Name!)
            .Where(a => !Framework.Contains(a));
        string[] known = [.. allowed.Split(' '), .. allowed.EndsWith(Web, StringComparison.Ordinal) ? WebFramework : []];
        Assert.Empty(references.Except(known));
    }

    /// <summary>Every type has a place in its assembly's order and uses no type behind its own place, so that rooms form no circles.</summary>
    [Theory]
    [MemberData(nameof(Houses))]
    public void ARoomKnowsOnlyThoseBeforeIt(string assembly, string order)
    {
        var rooms = new Rooms(assembly, order);
        var looksAhead = (
            from type in Assembly.Load(assembly).GetTypes()
            where Rooms.IsOurs(type)
            from used in UsedTypes.Of(type)
            where used.Assembly == type.Assembly && Rooms.IsOurs(used) && rooms.PlaceOf(used) > rooms.PlaceOf(type)
            select $"{type.FullName} knows {used.FullName}").Distinct().ToArray();
        Assert.True(looksAhead.Length == 0, string.Join('\n', looksAhead));
    }

    /// <summary>One name, one thing: no two types of the house are called the same.</summary>
    [Fact]
    public void ATypesNameStandsOnce()
    {
        var twice = Houses.SelectMany(house => Assembly.Load(house.Data.Item1).GetTypes())
            .Where(type => Rooms.IsOurs(type) && !type.IsNested && !type.Name.StartsWith('<'))
            .GroupBy(type => type.Name)
            .Where(named => named.Count() > 1)
            .Select(named => string.Join(" and ", named.Select(type => type.FullName)))
            .ToArray();
        Assert.True(twice.Length == 0, string.Join('\n', twice));
    }

    /// <summary>The order of each assembly's rooms. A room is a namespace ("." is the assembly's own) or one type that conducts others; "+"
    /// joins types that know one another.</summary>
    public static TheoryData<string, string> Houses { get; } = new()
    {
        { "Harkbook.Units", "." },
        {
            "Harkbook.Music", """
            Theory Theory.Symbols Theory.Labels
            Instruments Instruments.Strings Instruments.Shapes Instruments.Hands Instruments.Voicings Instruments.Harmonicas Instruments.Winds
            Songs.Reading.NearestWord Songs Songs.Reading Songs.Writing Songs.Editing
            Songs.SongText+Songs.SongDocument+Songs.Editing.AnchorEdits+Songs.Editing.SectionLike Songs.Rebarring Songs.Renewing
            Analysis Analysis.Harmony.Numerals Analysis.Harmony.Readings Analysis.Harmony Analysis.Hands Analysis.Rhythm Analysis.Layers
            Analysis.Harmony.Remarks Analysis.Retuning Analysis.SecondInstruments Analysis.Tunes Analysis.Songbooks Analysis.Explaining Analysis.Practice
            """
        },
        {
            "Harkbook.Audio", """
            Signals
            Recordings Recordings.Samples Recordings.Formats Recordings.Conversion Recordings.Reading
            Isolation
            Synthesis Synthesis.Strings Synthesis.Reeds Synthesis.Voices Synthesis.Sustained Synthesis.Mixing
            """
        },
        {
            "Harkbook.Listening", """
            . Evidence Reading.Lattices
            Estimators Estimators.Beats+Estimators.Beats.Rows+Estimators.Beats.Levels Estimators.ReferencePitch Estimators.Notes
            Estimators.Chords Estimators.Keys
            Estimators.Stiffness Estimators.Fretting Estimators.Form Estimators.Tunings Estimators.SecondInstrument Reading.Harmony Hearing Reading
            Interchange Evaluation
            Checking Checking.Weighing Checking.Notes Checking.Shapes Checking.Strokes Checking.Lines Checking.Checker
            Proposing Proposing.Hands Proposing.SongProposer Proposing.TuningQuestion
            HearingStore Listener
            """
        },
        { "Harkbook.Sounding", "." },
        { "Harkbook.Demo", "." },
        {
            "Harkbook.Publishing", """
            Drawings
            Engraving Engraving.Rows Engraving.Diagrams Engraving.Tabs Engraving.Shelves Engraving.Sheets
            Lessons.Timing Lessons.Sounds Lessons.Pieces Lessons.Video Lessons.Page Lessons
            """
        },
        { "Harkbook.Jobs", "Files ." },
        { "Harkbook.Workbench", "WorkbenchOptions Door Desk Books Sheet Ear Lessons Ways Pages _Imports ." },
        { "Harkbook.App", "Messages Files Choices Reports Doubts Making Commands ." },
    };
}
