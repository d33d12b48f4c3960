// Makes a found input as short as it can be while it still breaks the same thing: what is left says why.
namespace ChordLang.Fuzz.Running;

/// <summary>Shrinks inputs.</summary>
internal static class Shrinker
{
    /// <summary>The shortest input that was found in the time given.</summary>
    /// <param name="input">What broke.</param>
    /// <param name="breaks">Whether an input breaks the same.</param>
    /// <param name="time">Processor time.</param>
    public static string Shortest(string input, Func<string, bool> breaks, TimeSpan time)
    {
        var start = Environment.CpuUsage.TotalTime;
        bool Over() => Environment.CpuUsage.TotalTime - start > time;
        // Stretches of half the length, of a quarter, and so on; again from the start as long as that helps.
        for (var before = input.Length + 1; before > input.Length && !Over();)
        {
            before = input.Length;
            for (var length = Math.Max(1, input.Length / 2); length > 0 && !Over(); length /= 2)
                for (var at = 0; at < input.Length && !Over();)
                    if (input.Remove(at, Math.Min(length, input.Length - at)) is var shorter && breaks(shorter))
                        input = shorter;
                    else
                        at += length;
        }
        return input;
    }
}
