// What is fuzzed, and which property each target must keep.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Fuzz;

/// <summary>A target: takes a text, answers null or which property broke.</summary>
internal sealed record Target(string Name, Func<string, string?> Run);

internal static class Targets
{
    public static Target[] All { get; } =
    [
        new("parse: tokens in order, findings inside the line", Parse),
        new("print: text and bytes come back", Print),
        new("edit: a cached parse equals a fresh one", Edit),
        new("format: idempotent, and the music stays", Format),
        new("check: bind and all checks, findings inside the text", Check),
    ];

    private static string? Parse(string text)
    {
        foreach (var line in SyntaxTree.Parse(text).Lines)
            if (LineRules.Broken(line) is { } trouble)
                return trouble;
        return null;
    }

    private static string? Print(string text)
    {
        if (SyntaxTree.Parse(text).Print() != text)
            return "prints other text";
        var bytes = System.Text.Encoding.Latin1.GetBytes(text);
        return SourceText.From(bytes).ToBytes().AsSpan().SequenceEqual(bytes) ? null : "gives other bytes";
    }

    private static string? Edit(string text)
    {
        var (cache, source) = (new LineCache(), SourceText.From(text));
        SyntaxTree.Parse(source, cache);
        var edited = source.With([new TextEdit(new(text.Length / 2, 0), " 2 D4\n|")]);
        return Meaning.Of(SyntaxTree.Parse(edited, cache)).SequenceEqual(Meaning.Of(SyntaxTree.Parse(edited))) ? null : "a cached parse differs";
    }

    private static string? Format(string text)
    {
        var before = SyntaxTree.Parse(text);
        var once = before.Source.With(Formatter.Format(before));
        if (Formatter.Formatted(once).Text != once.Text)
            return $"format is not idempotent:\n{once}\nthen\n{Formatter.Formatted(once)}";
        var (old, now) = (Meaning.Of(before), Meaning.Of(SyntaxTree.Parse(once)));
        for (var i = 0; i < old.Count; i++)
            if (i >= now.Count || old[i] != now[i])
                return $"format changed the music: {old[i]} became {(i < now.Count ? now[i] : "nothing")}";
        return null;
    }

    private static string? Check(string text)
    {
        foreach (var finding in CheckCatalogue.Run(Binder.Bind(SyntaxTree.Parse(text))))
            if (finding.Span.Start < 0 || finding.Span.End > text.Length)
                return $"{finding.Code} lies outside the text";
        return null;
    }
}
