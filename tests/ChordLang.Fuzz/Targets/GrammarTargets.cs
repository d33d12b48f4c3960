// Any text has a tree that prints back, and a canonical form that says the same music.
using ChordLang.Fuzz.Generating;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Fuzz.Targets;

internal static class GrammarTargets
{
    public static Target[] All { get; } =
    [
        new("parse", "tokens in order, findings inside their line, text and bytes come back", 160, Texts.Any, Parse) { Traps = Texts.Traps() },
        new("format", "the formatter is idempotent and keeps the music", 120, Texts.Any, Format) { Traps = Texts.Traps() },
    ];

    private static string? Parse(string text)
    {
        var tree = SyntaxTree.Parse(text);
        foreach (var line in tree.Lines)
            if (LineRules.Broken(line) is { } trouble)
                return trouble;
        if (tree.Print() != text)
            return "prints other text";
        // The text as bytes, one a character, is seldom UTF-8; its own bytes are, but for lone surrogates.
        foreach (var bytes in (byte[][])[System.Text.Encoding.Latin1.GetBytes(text), SourceText.From(text).ToBytes()])
            if (!SourceText.From(bytes).ToBytes().AsSpan().SequenceEqual(bytes))
                return "gives other bytes";
        return null;
    }

    private static string? Format(string text)
    {
        var before = SyntaxTree.Parse(text);
        var once = before.Source.With(Formatter.Format(before));
        if (Formatter.Formatted(once).Text is var twice && twice != once.Text)
            return $"format is not idempotent:\n{once}\nthen\n{twice}";
        var (old, now) = (Meaning.Of(before), Meaning.Of(SyntaxTree.Parse(once)));
        for (var i = 0; i < Math.Max(old.Count, now.Count); i++)
            if (i >= now.Count || i >= old.Count || old[i] != now[i])
                return $"format changed the music: {(i < old.Count ? old[i] : "nothing")} became {(i < now.Count ? now[i] : "nothing")}";
        return null;
    }
}
