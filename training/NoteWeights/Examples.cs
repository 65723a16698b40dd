using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Units;

namespace Harkbook.Training.NoteWeights;

/// <summary>Features with what the classifier should say of them.</summary>
/// <param name="Weight">Above 1 where examples of this kind were thinned out.</param>
internal sealed record Example(float[] Features, float Onset, float Sounding, float Weight);

internal static class Examples
{
    private const double Kept = 0.2;

    public static List<Example> Of(Clip clip, Random random)
    {
        var a4 = Hertz.A440.Raised(Cents.FromCents(8 * (random.NextDouble() - 0.5)));
        var spectrum = LogSpectrum.Of(new Signal(LogSpectrum.Rate, clip.Samples), a4, null, CancellationToken.None);
        var features = new NoteFeatures(spectrum, NoteSalience.Of(spectrum, a4, CancellationToken.None));
        var examples = new List<Example>();
        for (var pitch = 0; pitch < HarmonicTemplates.Pitches; pitch++)
        {
            var notes = clip.Notes.Where(n => n.Midi == HarmonicTemplates.LowestMidi + pitch).ToList();
            for (var frame = 0; frame < features.Frames; frame++)
            {
                if (features.IsPresent(frame, pitch) && Taken(features, frame, pitch, notes, random) is { } example)
                    examples.Add(example);
            }
        }
        return examples;
    }

    private static Example? Taken(NoteFeatures features, int frame, int pitch, List<PlayedNote> notes, Random random)
    {
        var time = LogSpectrum.Hop.Value * frame;
        var onset = notes.Select(n => (time - n.Onset) / LogSpectrum.Hop.Value).Where(d => Math.Abs(d) < 3).Select(d => Math.Exp(-d * d / 2.5)).DefaultIfEmpty().Max();
        var telling = onset > 0.02 || features.Rise(frame, pitch) > 0.3;
        if (!telling && random.NextDouble() > Kept)
            return null;
        var sounding = notes.Any(n => time >= n.Onset - 0.006 && time < Math.Min(n.End, n.Onset + 5));
        var values = new float[NoteFeatures.Count];
        features.Fill(frame, pitch, values);
        return new(values, (float)onset, sounding ? 1 : 0, telling ? 1 : (float)(1 / (3 * Kept)));
    }
}
