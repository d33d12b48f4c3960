// The texts that are thrown: known traps, every prefix of every sample, and mutations that are the same on every run.
using ChordLang.Testing;

namespace ChordLang.Fuzz;

internal static class Cases
{
    private static readonly string[] Pieces =
    [
        "|", "||", "|:", "1", "2&", "3+2/5", "99+98/99", "to", "D4", "Eb", "8@2", "x-3-5-4-5-x", "x35453", "=", "is", "C7", "Cmaj7(#11)", "low-drop+7", "at", "ring", "until",
        "rest", "tied", "again", "grace", "bend", "\"", "“", "–", "\u00A0", "// allow hand-wide-stretch: so", ">", "\n", "\r", "\r\n", "\0", "(", ")", "+", "@", "top:", "repeat 2\n", "end\n",
        "ending 1\n", "pickup from 4&\n", "meter 7/16\n", "section A again\n", "expect no fret above 12\n", "\n    ", "\n| ", "%", "N.C.", "/", "𝄫", "\uD834", "\uFEFF", "tempo", "key G major\n",
    ];

    public static IEnumerable<string> Fixed()
    {
        yield return "";
        foreach (var opener in (string[])["", "| C", "    1 D4 is C", "key ", "shape a = ", "> ", "1 "])
        {
            yield return opener + new string('(', 600);
            yield return opener + string.Concat(Enumerable.Repeat("(", 600)) + new string(')', 600);
            yield return opener + new string('x', 1_000_000);
            yield return opener + string.Concat(Enumerable.Repeat("1 D4 ", 200_000));
            yield return opener + new string('\0', 100);
            yield return opener + string.Concat(Enumerable.Repeat("C4+", 1_300));
        }
        yield return string.Concat(Enumerable.Repeat("| C\n    1 D4\n", 2_000));
        foreach (var sample in Samples())
            for (var length = 0; length < sample.Length; length++)
                yield return sample[..length];
    }

    public static IEnumerable<string> Mutations()
    {
        var (samples, state) = (Samples(), 88172645463325252UL);
        while (true)
        {
            var text = samples.Length == 0 ? "" : samples[Next(samples.Length)];
            for (var n = Next(6); n >= 0; n--)
            {
                var (at, length) = (Next(text.Length + 1), Next(12));
                length = Math.Min(length, text.Length - at);
                text = Next(4) switch
                {
                    0 => text.Remove(at, length),
                    1 => text.Insert(at, Pieces[Next(Pieces.Length)] + (Next(2) == 0 ? " " : "")),
                    2 => text.Insert(Next(text.Length + 1), text.Substring(at, length)),
                    _ => string.Concat(text.AsSpan(0, at), ((char)Next(Next(8) == 0 ? 65_536 : 128)).ToString(), text.AsSpan(Math.Min(text.Length, at + 1))),
                };
            }
            yield return text;
        }

        // A fixed sequence (Marsaglia's xorshift), so that a failure comes again.
        int Next(int below)
        {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            return (int)(state % (ulong)below);
        }
    }

    private static string[] Samples() => [.. Repository.Samples().Select(Repository.Text)];
}
