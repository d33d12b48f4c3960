// The texts that most targets take: generated pieces, stretches of samples, and both after some damage.
using ChordLang.Testing;

namespace ChordLang.Fuzz.Generating;

/// <summary>Makes texts of the notation.</summary>
internal static class Texts
{
    private static readonly Lazy<string[]> All = new(() => [.. Repository.Samples().Select(Repository.Text)]);

    /// <summary>Texts that broke something once or look as if they could; no run leaves them out.</summary>
    public static IEnumerable<string> Traps()
    {
        yield return "";
        foreach (var opener in (string[])["", "| C", "    1 D4 is C", "key ", "shape a = ", "> ", "1 "])
        {
            yield return opener + new string('(', 600);
            yield return opener + new string('(', 600) + new string(')', 600);
            yield return opener + new string('x', 1_000_000);
            yield return opener + string.Concat(Enumerable.Repeat("1 D4 ", 200_000));
            yield return opener + new string('\0', 100);
            yield return opener + string.Concat(Enumerable.Repeat("C4+", 1_300));
        }
        yield return string.Concat(Enumerable.Repeat("| C\n    1 D4\n", 2_000));
    }

    /// <summary>A text that is mostly right.</summary>
    public static string Good(Dice dice) => dice.One(3) ? Stretch(dice) : Pieces.Piece(dice);

    /// <summary>A text: right, damaged, or thrown together.</summary>
    public static string Any(Dice dice) => dice.Next(8) switch
    {
        0 or 1 or 2 => Good(dice),
        3 => string.Concat(Enumerable.Range(0, 1 + dice.Next(40)).Select(_ => (dice.One(10) ? dice.Of(Odds.Characters) : dice.Of(Odds.Tokens)) + dice.Of("", " ", " ", "  "))),
        4 => string.Join(dice.Of(Odds.LineEnds), Enumerable.Range(0, 1 + dice.Next(8)).Select(_ => Pieces.Line(dice))),
        _ => Mutations.Text(dice, Good(dice), Good(dice), Odds.Tokens),
    };

    /// <summary>Some lines of a sample, with the settings above them.</summary>
    public static string Stretch(Dice dice)
    {
        if (All.Value.Length == 0)
            return Pieces.Piece(dice);
        var lines = dice.Of(All.Value).Split('\n');
        var head = lines.TakeWhile(l => !l.StartsWith('|')).ToList();
        var from = dice.Next(lines.Length);
        var stretch = string.Join('\n', lines.Skip(Math.Max(from, head.Count)).Take(1 + dice.Next(16)));
        return dice.One(3) ? stretch : string.Join('\n', head) + "\n" + stretch;
    }
}
