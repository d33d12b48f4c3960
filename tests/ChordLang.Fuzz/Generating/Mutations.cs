// Damages inputs as typing, pasting, merging and bad luck do.
using System.Text;
using ChordLang.Testing;

namespace ChordLang.Fuzz.Generating;

/// <summary>Damages texts and bytes.</summary>
internal static class Mutations
{
    private const int Longest = 20_000;

    /// <summary>A text after a few changes; some are taken from another text.</summary>
    public static string Text(Dice dice, string text, string other, string[] tokens)
    {
        for (var n = 1 + dice.Next(dice.One(4) ? 8 : 3); n > 0; n--)
            text = Once(dice, text, other, tokens);
        return text.Length > Longest ? text[..Longest] : text;
    }

    /// <summary>Bytes, one a character, after a few changes.</summary>
    public static string Bytes(Dice dice, string bytes, string other)
    {
        for (var n = 1 + dice.Next(dice.One(4) ? 10 : 3); n > 0; n--)
        {
            var (at, length) = Stretch(dice, bytes, 12);
            bytes = dice.Next(8) switch
            {
                0 => bytes.Remove(at, length),
                1 => bytes.Insert(at, ((char)dice.Next(256)).ToString()),
                2 => bytes.Insert(dice.Next(bytes.Length + 1), bytes.Substring(at, length)),
                3 => bytes[..at] + Tail(dice, other),
                4 => bytes.Insert(at, dice.Of("\0\0\0\u0001", "\u00FF\u00FF\u00FF\u007F", "\u00FF/\0", "MTrk", "MThd", "PK\u0003\u0004", "\u0080", "\u00FFQ\u0003\0\0\0", "\u00FFX\u0004\0\0\u0018\b", "\u0090<@", "\u00F0\u007F\u00F7")),
                5 => bytes[..at],
                _ => at < bytes.Length ? bytes[..at] + (char)(dice.One(2) ? dice.Of(0, 1, 127, 128, 255) : bytes[at] ^ 1 << dice.Next(8)) + bytes[(at + 1)..] : bytes,
            };
        }
        return bytes.Length > Longest ? bytes[..Longest] : bytes;
    }

    private static string Once(Dice dice, string text, string other, string[] tokens)
    {
        var (at, length) = Stretch(dice, text, 12);
        switch (dice.Next(16))
        {
            case 0:
            case 1:
                return text.Remove(at, length);
            case 2:
            case 3:
            case 4:
                return text.Insert(at, dice.Of("", " ") + dice.Of(tokens) + dice.Of("", " "));
            case 5:
                return text.Insert(at, dice.Of(Odds.Characters));
            case 6:
                return text.Insert(dice.Next(text.Length + 1), text.Substring(at, length));
            case 7:
                return text[..at] + Tail(dice, other);
            case 8:
                return Lines(dice, text, other);
            case 9:
                return Number(dice, text, at);
            case 10:
                return LineEnd(dice, text);
            case 11:
                return dice.One(6) ? text.Insert(at, new StringBuilder().Insert(0, dice.Of(tokens) + dice.Of("", " "), 1 + dice.Next(60)).ToString()) : text[..at];
            case 12:
                return at < text.Length ? text[..at] + (char.IsUpper(text[at]) ? char.ToLowerInvariant(text[at]) : char.ToUpperInvariant(text[at])) + text[(at + 1)..] : text + "x";
            case 13:
                return at < text.Length ? text[..at] + (char)(dice.One(8) ? dice.Next(65_536) : 32 + dice.Next(95)) + text[(at + 1)..] : text + "\n";
            case 14:
                return at + 1 < text.Length ? text[..at] + text[at + 1] + text[at] + text[(at + 2)..] : text;
            default:
                return dice.One(3) ? text.Replace(" ", dice.Of("", "  ", "\t", "\u00A0"), StringComparison.Ordinal) : text.Insert(at, ((char)(32 + dice.Next(95))).ToString());
        }
    }

    private static (int At, int Length) Stretch(Dice dice, string text, int most)
    {
        var at = dice.Next(text.Length + 1);
        return (at, Math.Min(dice.One(5) ? dice.Next(text.Length + 1) : dice.Next(most), text.Length - at));
    }

    private static string Tail(Dice dice, string other) => other[dice.Next(other.Length + 1)..];

    // Whole lines: one away, doubled, moved, or taken from the other text.
    private static string Lines(Dice dice, string text, string other)
    {
        var lines = text.Split('\n').ToList();
        var at = dice.Next(lines.Count);
        switch (dice.Next(4))
        {
            case 0:
                lines.RemoveAt(at);
                break;
            case 1:
                lines.Insert(dice.Next(lines.Count), lines[at]);
                break;
            case 2:
                (lines[at], lines[0]) = (lines[0], lines[at]);
                break;
            default:
                var from = other.Split('\n');
                lines.Insert(at, from[dice.Next(from.Length)]);
                break;
        }
        return string.Join('\n', lines);
    }

    private static string Number(Dice dice, string text, int at)
    {
        while (at < text.Length && !char.IsAsciiDigit(text[at]))
            at++;
        var end = at;
        while (end < text.Length && char.IsAsciiDigit(text[end]))
            end++;
        return text[..at] + dice.Of(Odds.Numbers) + text[end..];
    }

    private static string LineEnd(Dice dice, string text)
    {
        var end = dice.Of(Odds.LineEnds);
        if (dice.One(3))
            return text.Replace("\n", end, StringComparison.Ordinal);
        var at = text.IndexOf('\n', dice.Next(text.Length + 1));
        return at < 0 ? text + end : text[..at] + end + text[(at + 1)..];
    }
}
