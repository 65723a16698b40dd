namespace Harkbook.App.Tests.House;

/// <summary>An order of rooms in an assembly.</summary>
internal sealed class Rooms(string assembly, string order)
{
    private readonly Dictionary<string, int> places = order.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries)
        .SelectMany((together, place) => together.Split('+').Select(room => (Name: room == "." ? assembly : $"{assembly}.{room}", Place: place)))
        .ToDictionary(room => room.Name, room => room.Place);

    /// <summary>False for what the compiler writes beside our own types.</summary>
    public static bool IsOurs(Type type) => type.Namespace?.StartsWith("Harkbook.", StringComparison.Ordinal) == true;

    /// <summary>A type's own place in the order, or else its namespace's.</summary>
    public int PlaceOf(Type type)
    {
        var outer = type;
        while (outer.DeclaringType is { } holder)
            outer = holder;
        return places.TryGetValue($"{outer.Namespace}.{outer.Name}", out var own) || places.TryGetValue(outer.Namespace!, out own)
            ? own
            : throw new InvalidOperationException($"{type.FullName}: its room has no place in the order of {assembly}. Give it one.");
    }
}
