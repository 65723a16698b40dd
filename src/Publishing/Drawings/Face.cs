namespace Harkbook.Publishing.Drawings;

/// <summary>The faces that drawings are set in. A sign that a face lacks is looked for in the others.</summary>
public enum Face
{
    Text,
    Strong,
    Narrow,
    NarrowStrong,
    Digits,
    Music,
}
