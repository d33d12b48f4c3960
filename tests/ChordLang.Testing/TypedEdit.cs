// What happens to a text while it is written.
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Testing;

/// <summary>Makes edits as they come from an editor: signs, words, lines.</summary>
public static class TypedEdit
{
    private static readonly string[] Words = ["F#4", "Bb", "ring", "ring over", "C7b9", "3&", "tied", "again", "rest", "x-3-2-0-1-0", "accent", "3@5", "2", "1 D4  ", "top: ", "%", "ring until 2"];
    private static readonly string[] Lines = ["key Eb major", "meter 3/4", "| %", "| C", "capo 2", "section More", "> A word.", "repeat 2", "end", "tempo 90", "| Am7 | D7", "    1 D4  2 tied", "    3 again", "    low: 1 tied", "// words", "pickup 3"];

    /// <summary>An edit of a text.</summary>
    public static TextEdit In(SyntaxTree tree, Dice dice)
    {
        var text = tree.Source.Text;
        var line = tree.Source.Lines[dice.Next(tree.Source.Lines.Length)];
        var at = line.Start + dice.Next(line.Length + 1);
        switch (dice.Next(9))
        {
            case 0: return new(new(line.Start, line.Length + line.EndLength), "");
            case 1: return new(new(line.Start, 0), $"{text.AsSpan(line.Start, line.Length)}\n");
            case 2: return new(new(line.Start, 0), Lines[dice.Next(Lines.Length)] + "\n");
            case 3: return new(new(at, 0), "\n");
            case 4: return new(new(at, Math.Min(1 + dice.Next(3), text.Length - at)), "");
            case 5: return new(new(at, 0), ((string[])["#", " ", "b", "7", "-", "&", "x", "+", "@"])[dice.Next(9)]);
        }
        // A word for a word.
        while (at > line.Start && text[at - 1] is not ' ')
            at--;
        var end = at;
        while (end < line.End && text[end] is not ' ')
            end++;
        return new(Span.Between(at, end), Words[dice.Next(Words.Length)]);
    }
}
