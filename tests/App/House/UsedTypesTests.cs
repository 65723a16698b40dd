namespace Harkbook.App.Tests.House;

/// <summary>What the guard of the house sees of a type; each example uses one type in one way, of which signatures say nothing.</summary>
public class UsedTypesTests
{
    [Theory]
    [InlineData(typeof(CallsStatically), typeof(Math))]
    [InlineData(typeof(ReadsAField), typeof(BitConverter))]
    [InlineData(typeof(NamesAType), typeof(Guid))]
    [InlineData(typeof(FillsAGeneric), typeof(Version))]
    [InlineData(typeof(CallsBehindASwitch), typeof(Math))]
    public void ABodyIsSeenInto(Type type, Type used) => Assert.Contains(used, UsedTypes.Of(type));

    [Fact]
    public void WhatIsNotUsedIsNotSeen() => Assert.DoesNotContain(typeof(Math), UsedTypes.Of(typeof(NamesAType)));

    private static class CallsStatically
    {
        public static int Larger(int a, int b) => Math.Max(a, b);
    }

    private static class ReadsAField
    {
        public static bool Little() => BitConverter.IsLittleEndian;
    }

    private static class NamesAType
    {
        public static string Name() => typeof(Guid).Name;
    }

    private static class FillsAGeneric
    {
        public static int Count() => Array.Empty<Version>().Length;
    }

    private static class CallsBehindASwitch
    {
        public static int Pick(int which, int a)
        {
            var b = which switch { 0 => 7, 1 => 3, 2 => 9, 3 => 1, 4 => 4, _ => 0 };
            return Math.Max(a, b);
        }
    }
}
