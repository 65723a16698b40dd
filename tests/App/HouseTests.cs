using System.Reflection;

namespace Harkbook.App.Tests;

/// <summary>The directions that docs/decisions/0001-layout.md decides, held over the compiled assemblies.</summary>
public class HouseTests
{
    [Theory]
    [InlineData("Harkbook.Units", "")]
    [InlineData("Harkbook.Music", "Harkbook.Units")]
    [InlineData("Harkbook.Audio", "Harkbook.Units NAudio.Core")]
    [InlineData("Harkbook.Listening", "Harkbook.Units Harkbook.Music Harkbook.Audio NAudio.Midi NAudio.Core Microsoft.ML.OnnxRuntime")]
    [InlineData("Harkbook.Sounding", "Harkbook.Units Harkbook.Music Harkbook.Audio")]
    [InlineData("Harkbook.Demo", "Harkbook.Units Harkbook.Music Harkbook.Audio Harkbook.Sounding Harkbook.Listening")]
    [InlineData("Harkbook.Publishing", "Harkbook.Units Harkbook.Music Harkbook.Audio Harkbook.Sounding SkiaSharp SkiaSharp.HarfBuzz HarfBuzzSharp")]
    public void AnAssemblyKnowsOnlyThoseBelowIt(string name, string allowed)
    {
        var references = Assembly.Load(name).GetReferencedAssemblies()
            .Select(a => a.Name!)
            .Where(a => !a.StartsWith("System", StringComparison.Ordinal) && a is not ("mscorlib" or "netstandard" or "Microsoft.Win32.Primitives"));
        Assert.Empty(references.Except(allowed.Split(' ')));
    }

    [Theory]
    [InlineData("Harkbook.Music", "Theory Instruments Songs Analysis")]
    [InlineData("Harkbook.Audio", "Signals Recordings Isolation Synthesis")]
    [InlineData("Harkbook.Publishing", "Drawings Engraving Lessons")]
    public void AFolderKnowsOnlyThoseToItsLeft(string assembly, string folders)
    {
        var order = folders.Split(' ');
        var looksRight =
            from type in Assembly.Load(assembly).GetTypes()
            let own = Rank(type)
            where own >= 0
            from used in Used(type)
            where Rank(used) > own
            select $"{type.FullName} knows {used.FullName}";
        Assert.Empty(looksRight.Distinct());

        int Rank(Type type) => Array.FindIndex(order, f => type.Namespace?.StartsWith($"{assembly}.{f}", StringComparison.Ordinal) == true);
    }

    private static IEnumerable<Type> Used(Type type)
    {
        const BindingFlags Own = BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;
        var methods = type.GetMethods(Own).Cast<MethodBase>().Concat(type.GetConstructors(Own)).ToArray();
        return type.GetFields(Own).Select(f => f.FieldType)
            .Concat(type.GetProperties(Own).Select(p => p.PropertyType))
            .Concat(type.GetMethods(Own).Select(m => m.ReturnType))
            .Concat(methods.SelectMany(m => m.GetParameters()).Select(p => p.ParameterType))
            .Concat(methods.SelectMany(m => m.GetMethodBody()?.LocalVariables ?? []).Select(l => l.LocalType))
            .Concat(type.GetInterfaces())
            .Append(type.BaseType ?? typeof(object))
            .SelectMany(Unwrapped);
    }

    private static IEnumerable<Type> Unwrapped(Type type) =>
        type.HasElementType ? Unwrapped(type.GetElementType()!)
        : type.IsGenericType ? type.GetGenericArguments().SelectMany(Unwrapped).Append(type)
        : [type];
}
