using System.CommandLine;
using System.Globalization;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.App.Commands;

internal static class HarpsCommand
{
    public static Command Create()
    {
        var pitches = new Argument<string[]>("pitches") { Description = "The tune's sounding pitches in order: D5 E5 F#5 (C4 is middle C)", Arity = ArgumentArity.OneOrMore };
        var count = Options.Count("harmonicas", 4);
        var command = new Command("harps", "Rank harmonicas for a tune and give the holes: +4 blow, -4 draw, ' a semitone's bend, o over-bend") { pitches, count };
        command.SetAction(parsed =>
        {
            var tune = Options.ReadWords(parsed.GetRequiredValue(pitches), "harkbook harps D5 E5 F#5").Select(Read).ToArray();
            foreach (var fit in HarpChooser.Rank(tune).Take(Options.ReadCount(parsed.GetValue(count))))
            {
                var holes = tune.Select(p => fit.Harp.NotesFor(p) is [var first, ..] ? first.ToString() : "?");
                var missing = fit.Unreachable.IsEmpty ? "" : $"  not there: {string.Join(' ', fit.Unreachable)}";
                Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"{fit.Harp.Key,-3} {fit.Plain} plain, {fit.Bent} bent, {fit.OverBent} over-bent, effort {fit.Cost:0.00}  {string.Join(' ', holes)}{missing}"));
            }
            return 0;
        });
        return command;
    }

    private static Pitch Read(string text) =>
        Pitch.TryParse(text, out var pitch)
            ? pitch
            : throw new UsageException($"'{text}' is not a pitch; write a note name and an octave, as in F#5 (C4 is middle C).");
}
