// What is said about slips, in one place, so that it keeps one voice: what is wrong, and what to do.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Parsing;

/// <summary>Builds findings.</summary>
internal static class Say
{
    public static SyntaxFinding Finding(string code, Span span, string message, params ReadOnlySpan<SyntaxFix> fixes) =>
        new(code, span, message, [.. fixes]);

    /// <summary>A repair of one stretch.</summary>
    public static SyntaxFix Fix(string title, bool safe, Span span, string text) => new(title, safe, [new TextEdit(span, text)]);

    public static SyntaxFix Write(string text, bool safe, Span span) => Fix($"Write {text}", safe, span, text);

    public static SyntaxFix Remove(Span span) => Fix("Take it out", false, span, "");

    public static ImmutableArray<SyntaxFinding> Ordered(List<SyntaxFinding> findings) =>
        findings.Count switch { 0 => [], 1 => [findings[0]], _ => [.. findings.OrderBy(f => f.Span.Start)] };

    /// <summary>A part of a line in quotation marks, cut where it is long; what cannot be seen is named.</summary>
    public static string Shown(string text)
    {
        if (text is [var only] && (char.IsControl(only) || char.IsSurrogate(only) || char.GetUnicodeCategory(only) == System.Globalization.UnicodeCategory.Format))
            return $"The sign U+{(int)only:X4}";
        var clean = string.Concat(text.Select(c => char.IsControl(c) || char.IsSurrogate(c) ? '\uFFFD' : c));
        return clean.Length > 40 ? $"\"{clean[..40]}…\"" : $"\"{clean}\"";
    }

    public static SyntaxFinding Typed(string line, Span first, ImmutableArray<TextEdit> edits)
    {
        var one = edits.Length == 1 && !string.IsNullOrWhiteSpace(line.Substring(edits[0].Span.Start, edits[0].Span.Length));
        var what = one ? $"{Shown(line.Substring(edits[0].Span.Start, edits[0].Span.Length))} is read as {Shown(edits[0].NewText)}" : "Signs or capitals that phones and mail programs put in are read as the plain ones";
        return Finding(SyntaxCodes.Typing, first, $"{what}. Write it plainly, so that the line can be searched and compared.",
            new SyntaxFix("Write it plainly", true, edits));
    }

    public static SyntaxFinding OpenQuote(Words words)
    {
        var span = words[words.OpenQuote].Span;
        return Finding(SyntaxCodes.OpenQuote, new(span.Start, 1), "This quote is never closed; it is read up to the next count with a sound. Close it with \".",
            Fix("Close the quote", true, new(span.End, 0), "\""));
    }

    public static SyntaxFinding MissingSound(Words words, int last, EventSyntax e)
    {
        var what = e.To is null ? "Nothing is written behind this count" : "No sounds are written behind this run";
        return Finding(SyntaxCodes.MissingSound, words[last].Span.Join(e.Count.Span),
            $"{what}. Write a pitch (D4), frets (x-3-5-4-5-x), a shape, rest, tied or again; or take the count out.",
            e.To is null ? [Fix("Write rest", false, new(words[last].Span.End, 0), " rest")] : []);
    }

    public static SyntaxFinding EmptyRow(string line, Span label) =>
        Finding(SyntaxCodes.MissingSound, label, $"Nothing is played in this row. Write events behind {line.Substring(label.Start, label.Length)} such as 1 D4, or take the line out.");

    public static SyntaxFinding BarInRow(Words words, int i)
    {
        var span = words[i].Span;
        if (i == words.Count - 1)
            return Finding(SyntaxCodes.Unreadable, span, "A row ends with its line and needs no bar line.", Fix("Take the bar line out", true, span, ""));
        return Finding(SyntaxCodes.Unreadable, span,
            "A row holds one bar, and what follows this bar line is not read. Begin the next bar with a chart line of its own, then write its row below.");
    }

    public static SyntaxFinding Octave(string line, PitchSyntax pitch)
    {
        var name = line.Substring(pitch.Span.Start, pitch.Span.Length);
        return Finding(SyntaxCodes.Octave, pitch.Span,
            $"The first pitch of a row needs its octave, and {name} has none; middle C is C4. The pitches behind it may leave theirs out: each is then the nearest.",
            Write(name + "4", false, pitch.Span), Write(name + "3", false, pitch.Span), Write(name + "5", false, pitch.Span));
    }

    /// <summary>The general finding.</summary>
    public static SyntaxFinding Unreadable(string line, Span span, string advice, params ReadOnlySpan<SyntaxFix> fixes) =>
        Finding(SyntaxCodes.Unreadable, span, $"{Shown(line.Substring(span.Start, span.Length))} cannot be read here. {advice}", fixes);

    public static SyntaxFinding TooLong(Span span) => Finding(SyntaxCodes.Unreadable, span,
        $"This line is longer than {LineParser.LongestLine:N0} characters and is not read. Part it into several lines: a bar is one chart line and its rows.");

    public static SyntaxFinding Lost(string line, Span span) => Finding(SyntaxCodes.Unreadable, span,
        $"{Shown(line.Substring(span.Start, span.Length))} cannot be read. Begin a line with |, a count, a voice label such as top:, a setting, a form word, > or //.");

    public static SyntaxFinding BadValue(Span span, string message, params ReadOnlySpan<SyntaxFix> fixes) => Finding(SyntaxCodes.BadValue, span, message, fixes);
}
