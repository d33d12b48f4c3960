// What holds for every parsed line, whatever the text.
using ChordLang.Grammar.Syntax;

namespace ChordLang.Testing;

/// <summary>Rules of parsed lines.</summary>
public static class LineRules
{
    /// <summary>The rule that a line breaks, or null: tokens in order, none empty, none overlapping, covering all that is not blank; findings inside.</summary>
    public static string? Broken(LineSyntax line)
    {
        var at = 0;
        foreach (var token in line.Tokens)
        {
            if (token.Span.Start < at || token.Span.Length < 1 || token.Span.End > line.Text.Length)
                return $"token {token} is out of order or outside: {line.Text}";
            if (!Blank(line.Text.AsSpan(at, token.Span.Start - at)))
                return $"text before token {token} is in none: {line.Text}";
            at = token.Span.End;
        }
        if (!Blank(line.Text.AsSpan(at)))
            return $"text behind the last token is in none: {line.Text}";
        foreach (var finding in line.Findings)
            if (finding.Span.Start < 0 || finding.Span.Length < 0 || finding.Span.End > line.Text.Length || finding.Message.Length == 0
                || !SyntaxCodes.Titles.Any(t => t.Code == finding.Code)
                || finding.Fixes.Any(f => f.Edits.Any(e => e.Span.Start < 0 || e.Span.End > line.Text.Length)))
                return $"finding {finding.Code} {finding.Span} is outside or unnamed: {line.Text}";
        return null;
    }

    private static bool Blank(ReadOnlySpan<char> text)
    {
        foreach (var c in text)
            if (!char.IsWhiteSpace(c) && c != '\uFEFF')
                return false;
        return true;
    }
}
