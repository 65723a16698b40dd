using System.Buffers.Binary;
using System.Collections.Frozen;
using System.Reflection;
using System.Reflection.Emit;

namespace Harkbook.App.Tests.House;

/// <summary>
/// Reads a method's instructions as the Common Language Infrastructure lays them out (ECMA-335, partition III): an opcode of one byte, or
/// of two after FE, then an operand whose size the opcode gives. Operands that are metadata tokens name types, fields and methods.
/// </summary>
internal static class Instructions
{
    private static readonly FrozenDictionary<short, OpCode> Opcodes = typeof(OpCodes).GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(f => (OpCode)f.GetValue(null)!).ToFrozenDictionary(o => o.Value);

    public static IEnumerable<Type> TypesIn(MethodBase method) => Tokens(method).SelectMany(token => Named(method, token));

    private static List<int> Tokens(MethodBase method)
    {
        var code = method.GetMethodBody()?.GetILAsByteArray() ?? [];
        var tokens = new List<int>();
        for (var at = 0; at < code.Length;)
        {
            var opcode = Opcodes[code[at] == 0xFE ? (short)(0xFE00 | code[at + 1]) : code[at]];
            at += opcode.Size;
            if (opcode.OperandType is OperandType.InlineField or OperandType.InlineMethod or OperandType.InlineTok or OperandType.InlineType)
                tokens.Add(BinaryPrimitives.ReadInt32LittleEndian(code.AsSpan(at)));
            at += Length(opcode, code.AsSpan(at));
        }
        return tokens;
    }

    private static int Length(OpCode opcode, ReadOnlySpan<byte> operand) => opcode.OperandType switch
    {
        OperandType.InlineNone => 0,
        OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
        OperandType.InlineVar => 2,
        OperandType.InlineI8 or OperandType.InlineR => 8,
        OperandType.InlineSwitch => 4 + 4 * BinaryPrimitives.ReadInt32LittleEndian(operand),
        _ => 4,
    };

    private static Type[] Named(MethodBase method, int token)
    {
        var generics = method.IsGenericMethod ? method.GetGenericArguments() : null;
        return method.Module.ResolveMember(token, method.DeclaringType?.GetGenericArguments(), generics) switch
        {
            Type type => [type],
            MethodInfo called => [called.DeclaringType!, called.ReturnType, .. called.GetGenericArguments()],
            MemberInfo member => [member.DeclaringType!],
            null => [],
        };
    }
}
