using System.Reflection;

namespace Harkbook.App.Tests.House;

/// <summary>The types that a type uses: in its members' signatures, in what it derives from, and in every instruction of its methods' bodies.</summary>
internal static class UsedTypes
{
    private const BindingFlags Own =
        BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;

    public static IEnumerable<Type> Of(Type type)
    {
        var methods = type.GetMethods(Own).Cast<MethodBase>().Concat(type.GetConstructors(Own)).ToArray();
        return type.GetFields(Own).Select(f => f.FieldType)
            .Concat(type.GetProperties(Own).Select(p => p.PropertyType))
            .Concat(methods.SelectMany(Signature))
            .Concat(methods.SelectMany(m => m.GetMethodBody()?.LocalVariables ?? []).Select(l => l.LocalType))
            .Concat(methods.SelectMany(Instructions.TypesIn))
            .Concat(type.GetInterfaces())
            .Concat(type.GetGenericArguments().SelectMany(a => a.IsGenericParameter ? a.GetGenericParameterConstraints() : []))
            .Append(type.BaseType ?? typeof(object))
            .SelectMany(Unwrapped)
            .Distinct();
    }

    private static IEnumerable<Type> Signature(MethodBase method) =>
        method.GetParameters().Select(p => p.ParameterType).Append(method is MethodInfo { ReturnType: var given } ? given : typeof(void));

    private static IEnumerable<Type> Unwrapped(Type type) =>
        type.HasElementType ? Unwrapped(type.GetElementType()!)
        : type.IsGenericType ? type.GetGenericArguments().SelectMany(Unwrapped).Append(type)
        : [type];
}
