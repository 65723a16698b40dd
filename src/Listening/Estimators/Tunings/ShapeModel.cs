namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// How likely a player who means a chord chooses just the strings and frets that sound some pitches, among all shapes on given open strings that
/// sound that chord over that bass: players take open strings, few fingers, low frets and full shapes. On the true tuning what is played is among
/// the best there is; on another the same pitches are often an odd choice (C. Baker, R. Saxe and J. Tenenbaum, "Action understanding as inverse
/// planning", Cognition 113, 2009). All shapes are summed by dynamic programming over strings and fingers.
/// </summary>
/// <param name="open">MIDI numbers of the strings as the capo stops them, low side first.</param>
internal sealed class ShapeModel(int[] open)
{
    private const int Fingers = 4, Reach = 3, HighestNear = 4, HighestBarre = 9;
    private const double Open = 2.7, Pressed = 0.75, PerFret = 0.9, Barre = 0.4, PerPlace = 0.88, BelowBass = 0.8, Left = 0.16, Stray = 0.006, Overtone = 0.05, Never = 1e-9;

    /// <summary>The natural log of the chance that the chord's shape sounds these pitches.</summary>
    /// <param name="classes">By pitch class: whether the chord has it.</param>
    public double LogChance(int[] pitches, bool[] classes, double[] strays)
    {
        var (played, all) = (Never, 0.0);
        for (var place = 1; place <= HighestBarre; place++)
        {
            for (var barre = place <= HighestNear ? 0 : 1; barre < 2; barre++)
            {
                var weight = Math.Pow(PerPlace, place) * (barre == 1 ? Barre : 1);
                played += weight * Played(pitches, strays, place, barre == 1);
                all += weight * All(classes, pitches[0] % 12, place, barre == 1);
            }
        }
        return Math.Log(played / (all + Never));
    }

    public static double[] Strays(int[] pitches) => [.. pitches.Select((p, i) => pitches.Take(i).Any(low => p - low is 12 or 19 or 24) ? Overtone : Stray)];

    private double Played(int[] pitches, double[] strays, int place, bool barre)
    {
        var count = pitches.Length;
        Span<double> now = stackalloc double[(count + 1) * (Fingers + 1)], next = stackalloc double[(count + 1) * (Fingers + 1)];
        now.Clear();
        now[barre ? 1 : 0] = 1;
        for (var i = 0; i < count; i++)
            now[(i + 1) * (Fingers + 1) + (barre ? 1 : 0)] = now[i * (Fingers + 1) + (barre ? 1 : 0)] * strays[i];
        foreach (var pitch in open)
        {
            next.Clear();
            for (var i = 0; i <= count; i++)
            {
                for (var used = 0; used <= Fingers; used++)
                {
                    var sum = now[i * (Fingers + 1) + used];
                    if (sum == 0)
                        continue;
                    next[i * (Fingers + 1) + used] += sum * (i == 0 ? BelowBass : Left);
                    if (i == count)
                        continue;
                    var (weight, fingers) = Of(pitches[i] - pitch, place, barre);
                    if (weight > 0 && used + fingers <= Fingers)
                        next[(i + 1) * (Fingers + 1) + used + fingers] += sum * weight;
                }
            }
            for (var i = 0; i < count; i++)
            {
                for (var used = 0; used <= Fingers; used++)
                    next[(i + 1) * (Fingers + 1) + used] += next[i * (Fingers + 1) + used] * strays[i];
            }
            next.CopyTo(now);
        }
        var total = 0.0;
        for (var used = 0; used <= Fingers; used++)
            total += now[count * (Fingers + 1) + used];
        return total;
    }

    private double All(bool[] classes, int bass, int place, bool barre)
    {
        Span<double> silent = stackalloc double[Fingers + 1], sounding = stackalloc double[Fingers + 1], next = stackalloc double[Fingers + 1];
        silent.Clear();
        sounding.Clear();
        silent[barre ? 1 : 0] = 1;
        foreach (var pitch in open)
        {
            for (var used = 0; used <= Fingers; used++)
                next[used] = sounding[used] * Left;
            for (var step = barre ? 0 : -1; step <= Reach; step++)
            {
                var fret = step < 0 ? 0 : place + step;
                var pitchClass = (pitch + fret) % 12;
                var (weight, fingers) = Of(fret, place, barre);
                for (var used = 0; used + fingers <= Fingers && classes[pitchClass]; used++)
                    next[used + fingers] += weight * (sounding[used] + (pitchClass == bass ? silent[used] : 0));
            }
            next.CopyTo(sounding);
            for (var used = 0; used <= Fingers; used++)
                silent[used] *= BelowBass;
        }
        var total = 0.0;
        foreach (var sum in sounding)
            total += sum;
        return total;
    }

    private static (double Weight, int Fingers) Of(int fret, int place, bool barre) =>
        fret == 0 && !barre ? (Open, 0)
        : fret < place || fret > place + Reach ? (0, 0)
        : barre && fret == place ? (1, 0)
        : (Pressed * Math.Pow(PerFret, fret - place), 1);
}
