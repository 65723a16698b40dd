namespace Harkbook.Workbench.Desk;

/// <summary>What a person taps along.</summary>
public enum TapKind
{
    BarLines,
    Beats,
    Syllables,
}
