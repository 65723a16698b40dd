using Harkbook.Music.Songs;

namespace Harkbook.Workbench.Sheet;

/// <summary>Chord symbols as they are said: "Bm" as "B minor", "F#m7/A" as "F sharp m7 over A".</summary>
public static class SpokenChord
{
    public static string Of(string name)
    {
        var symbol = NamedShape.SymbolOf(name);
        if (symbol is "N.C." || symbol.Length == 0)
            return "no chord";
        var parts = symbol.Split('/', 2);
        var signs = parts[0].Skip(1).TakeWhile(c => c is '#' or 'b').Count();
        var kind = parts[0][(1 + signs)..];
        var root = parts[0][0] + string.Concat(parts[0].Skip(1).Take(signs).Select(c => c == '#' ? " sharp" : " flat"));
        return $"{root}{kind switch { "" => " major", "m" => " minor", _ => " " + kind }}{(parts.Length == 2 ? $" over {parts[1]}" : "")}";
    }
}
