using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>How far a string is pulled aside; the default is not at all.</summary>
/// <param name="By">How much higher the note sounds then; a multiple of 50 cents up to <see cref="Most"/>.</param>
/// <param name="IsBefore">Bent before it is picked, so that it starts high.</param>
/// <param name="IsReleased">Let back while it sounds.</param>
public readonly record struct Bend(Cents By, bool IsBefore = false, bool IsReleased = false)
{
    /// <summary>Two and a half whole steps; more is beyond common practice and hard on string and hand.</summary>
    public static Cents Most { get; } = Cents.FromCents(500);

    public bool IsNone => By == default;

    /// <summary>In whole steps, as tab prints it: "½", "1", "1½".</summary>
    public string InSteps()
    {
        var quarters = (int)Math.Round(By.Value / 50);
        return (quarters >= 4 ? $"{quarters / 4}" : "") + (quarters % 4) switch { 1 => "¼", 2 => "½", 3 => "¾", _ => "" };
    }
}
