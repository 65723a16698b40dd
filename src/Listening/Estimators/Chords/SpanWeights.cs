namespace Harkbook.Listening.Estimators.Chords;

/// <summary>How far each thing counts when a span is weighed (models/harmony.json): natural logs and chances.</summary>
/// <param name="Bass">How far what the network says of the bass counts beside the chord.</param>
/// <param name="Lowest">How far beside both what lies lowest; in what the network was taught that was often only a pattern's note.</param>
/// <param name="Silence">"No chord" was taught mostly before and after the music, where chords ring out; where notes sound, doubt counts against it.</param>
/// <param name="ChangeShare">How far the network, and how far the place in the bar, tells whether the chord changes.</param>
/// <param name="Readier">How much readier to change than they say, in log-odds.</param>
/// <param name="Downbeat">The chance that the chord changes on a downbeat.</param>
/// <param name="Beat">The chance that it changes on another beat; between fixed frames twice that.</param>
/// <param name="Between">The chance that it changes between beats.</param>
internal sealed record SpanWeights(
    double Bass, double Lowest, double Silence, double ChangeShare, double Readier, double Downbeat, double Beat, double Between)
{
    public double ChangeAt(SpanPlace place) => place switch
    {
        SpanPlace.Downbeat => Downbeat,
        SpanPlace.Beat => Beat,
        SpanPlace.Between => Between,
        _ => 2 * Beat,
    };
}
