using System.CommandLine;
using System.Globalization;
using Harkbook.App.Choices;
using Harkbook.App.Messages;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;

namespace Harkbook.App.Commands;

internal static class ShapesCommand
{
    public static Command Create()
    {
        var chord = new Argument<string>("chord") { Description = "A chord symbol: D, F#m7, G/B" };
        var tuning = Options.Tuning();
        var capo = Options.Capo();
        var count = Options.Count("shapes", 8);
        var hand = HandOption.Create();
        var command = new Command("shapes", "List ways to finger a chord in a tuning, the easiest first") { chord, tuning, capo, hand, count };
        command.SetAction(parsed =>
        {
            var wanted = Options.ReadChord(parsed.GetRequiredValue(chord));
            var instrument = Options.ReadInstrument(parsed.GetValue(tuning));
            var (open, at) = (instrument.Tuning, Options.ReadCapo(parsed.GetValue(capo)));
            var most = Options.ReadCount(parsed.GetValue(count));
            var found = VoicingSearch.Find(wanted, open, at, VoicingOptions.On(instrument.Instrument, open, HandOption.Read(parsed.GetValue(hand))));
            if (found.IsEmpty)
                throw new UsageException($"No playable shape for {wanted} in {open}, {(at.Fret == 0 ? "no capo" : $"capo {at}")}: its notes don't lie within a "
                    + "hand's reach, or there are too few strings. Try a plainer chord, or another tuning.");
            Console.Out.WriteLine($"{wanted} in {open}{On(instrument)}{(at.Fret == 0 ? "" : $", capo {at}")}   (frets from the low string; the chord is named "
                + "as it sounds)");
            foreach (var voicing in found.Take(most))
            {
                var pitches = voicing.Shape.Pitches(open, at, wanted);
                Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"  {voicing.Shape,-18} {string.Join(' ', pitches),-30} effort {voicing.Cost.Total:0.00}{Why(voicing)}"));
            }
            return 0;
        });
        return command;
    }

    private static string On(TunedInstrument instrument) =>
        instrument.Instrument.Name == TuningCatalogue.Guitar ? "" : $" on the {instrument.Instrument.Name}";

    private static string Why(Voicing voicing)
    {
        var parts = voicing.Cost.Parts.Take(2).Select(p => p.Name).ToArray();
        return parts.Length == 0 ? "" : $" ({string.Join(", ", parts)})";
    }
}
