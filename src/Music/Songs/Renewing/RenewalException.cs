namespace Harkbook.Music.Songs.Renewing;

/// <summary>What is proposed now and what a person decided can't stand in one song.</summary>
/// <param name="line">The line of the file as it stands, from 1, that stands against it.</param>
/// <param name="why">What is wrong with it.</param>
/// <param name="wayOut">What the person can do.</param>
public sealed class RenewalException(int line, string why, string wayOut) : Exception($"{why} {wayOut}")
{
    public int Line => line;
}
