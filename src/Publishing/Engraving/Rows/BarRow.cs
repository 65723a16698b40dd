using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>Where a bar stands on its line.</summary>
internal sealed record BarSlot(Bar Bar, double Left, double Width)
{
    private const double Lead = 8;
    private const double Trail = 2;

    public double Right => Left + Width;

    /// <summary>Where text may begin and end inside the bar.</summary>
    public double InnerLeft => Left + 2.5;

    public double InnerRight => Right - 2.5;

    public double X(Beats at) => Left + Lead + at.Value / Bar.Meter.BarLength.Value * (Width - Lead - Trail);

    public double End<T>(Claim<T> claim) => Math.Min(X(claim.Start + claim.Length), InnerRight);
}

/// <summary>One part's row on a line of bars.</summary>
internal abstract class BarRow
{
    /// <summary>The row's name at the line's start.</summary>
    public abstract string Label { get; }

    public abstract double Height { get; }

    /// <summary>Where the label's baseline stands below the row's top.</summary>
    public virtual double LabelBaseline => Height * 0.7;

    /// <summary>Whether a bar has anything for this row; a line leaves out rows that none of its bars needs.</summary>
    public abstract bool Has(Bar bar);

    /// <summary>The row as these bars, which stand together, need it.</summary>
    public virtual BarRow For(IEnumerable<Bar> bars) => this;

    /// <summary>Whether the bar's content stands well at the slot's width.</summary>
    public virtual bool Fits(BarSlot slot) => true;

    public abstract void Draw(Sketch sketch, BarSlot slot, double top);

    /// <summary>What stands in a bar that has nothing for the row, on a line where another has.</summary>
    public virtual void DrawElsewhere(Sketch sketch, BarSlot slot, double top)
    {
    }

    /// <summary>What stands in the margin before the first bar, its words no smaller than asked for.</summary>
    public virtual void DrawMargin(Sketch sketch, double right, double top, double least = 6.6) =>
        sketch.Text(Label, right - 5, top + LabelBaseline, Face.Narrow, least, Tint.Quiet, Align.Right);

    /// <summary>Dots under the claims that were heard and not decided; those that follow on share a row of dots.</summary>
    protected static void MarkHeard<T>(Sketch sketch, BarSlot slot, IEnumerable<Claim<T>> claims, double y)
    {
        (double Left, double Right)? run = null;
        foreach (var claim in claims.Where(c => c.Standing.Kind == StandingKind.Heard).OrderBy(c => c.Start))
        {
            var (left, right) = (slot.X(claim.Start), slot.End(claim));
            if (run is { } r && left > r.Right + 0.5)
            {
                Dots(sketch, slot, r, y);
                run = null;
            }
            run = (run?.Left ?? left, Math.Max(run?.Right ?? 0, right));
        }
        if (run is { } last)
            Dots(sketch, slot, last, y);
    }

    /// <summary>Rests where a part falls silent.</summary>
    /// <param name="aside">How far left of its place each begins.</param>
    protected static void DrawRests(Sketch sketch, BarSlot slot, Silences? silences, double top, double height, double aside = 0)
    {
        foreach (var at in silences?.In(slot.Bar) ?? [])
            RestSign.Draw(sketch, Math.Min(slot.X(at) - aside, slot.InnerRight - RestSign.Width(height)), top, height);
    }

    private static void Dots(Sketch sketch, BarSlot slot, (double Left, double Right) run, double y) =>
        sketch.Dots(run.Left, Math.Max(run.Right - 2, Math.Min(run.Left + 5, slot.InnerRight)), y, 0.75);
}
