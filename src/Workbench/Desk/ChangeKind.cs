using System.Text.Json.Serialization;

namespace Harkbook.Workbench.Desk;

/// <summary>What made a change of the song file.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<ChangeKind>))]
public enum ChangeKind
{
    /// <summary>The file as it was when the journal was begun; its patch puts all of it.</summary>
    Begun,

    /// <summary>A person's decision on the workbench.</summary>
    Decided,

    /// <summary>What followed from a decision when the evidence was read again.</summary>
    Reheard,

    /// <summary>Found in the file: another program wrote it.</summary>
    Outside,
    Undone,
    Redone,
}
