// Reads the lines whose words are free: prose, comments, sections and used files.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Parsing;

/// <summary>Lines of free words behind a sign or a first word.</summary>
internal static class FreeText
{
    public static LineSyntax Prose(string line, int start)
    {
        var words = start + 1 < line.Length && line[start + 1] == ' ' ? start + 2 : start + 1;
        return new ProseLine(line, line[words..]) { Tokens = Tokens(line, new(start, 1)) };
    }

    public static LineSyntax Comment(string line, int start)
    {
        var opener = new Span(start, 2);
        var words = Words.OfRow(line, start + 2);
        if (!words.Is(0, "allow") || words.Count < 2)
            return new CommentLine(line, null) { Tokens = Tokens(line, opener) };
        var span = words[1].Span;
        var code = words.Text(1);
        if (code.IndexOf(':') is var colon && colon >= 0)
            (code, span) = (code[..colon], new(span.Start, colon));
        // Every name of a finding has a hyphen; `allow` in front of another word is talk.
        if (!code.Contains('-') || !Scan.IsCode(code) || colon < 0 && words.Count > 2 && words.Text(2)[0] != ':')
            return new CommentLine(line, null) { Tokens = Tokens(line, opener) };
        var behind = LineParser.Whole(line[span.End..]).Shift(span.End);
        var reason = line.Substring(behind.Start, behind.Length).TrimStart(':').Trim();
        ImmutableArray<Token> tokens = [new(TokenKind.Opener, opener), new(TokenKind.Keyword, words[0].Span), new(TokenKind.Name, span)];
        return new CommentLine(line, new(span, code, reason))
        {
            Tokens = behind.Length > 0 ? tokens.Add(new(TokenKind.Words, behind)) : tokens,
            Findings = reason.Length > 0 ? [] : [Say.Finding(SyntaxCodes.MissingReason, span,
                $"Whoever reads this later will ask why {code} is silenced. Write the reason behind a colon: // allow {code}: the stretch is meant.")],
        };
    }

    public static LineSyntax Section(string line, Span keyword)
    {
        var words = Words.OfRow(line, keyword.End);
        if (words.Count == 0)
            return new SectionLine(line, new(keyword.End, 0), false)
            {
                Tokens = [new(TokenKind.Keyword, keyword)],
                Findings = [Say.BadValue(keyword, "A section has a name: section Bridge. To play one again write its name and again: section A again.")],
            };
        var name = LineParser.Whole(line[keyword.End..]).Shift(keyword.End);
        var again = words.Count > 1 && line.EndsWithWord(name, "again");
        if (!again)
            return Typed(new SectionLine(line, name, false) { Tokens = [new(TokenKind.Keyword, keyword), new(TokenKind.Name, name)] }, keyword);
        var word = new Span(name.End - 5, 5);
        name = LineParser.Whole(line[name.Start..word.Start]).Shift(name.Start);
        return Typed(new SectionLine(line, name, true)
        {
            Tokens = [new(TokenKind.Keyword, keyword), new(TokenKind.Name, name), new(TokenKind.Keyword, word)],
        }, keyword);
    }

    public static LineSyntax Use(string line, Span keyword)
    {
        var value = LineParser.Whole(line[keyword.End..]).Shift(keyword.End);
        if (value.Length == 0)
            return new UseLine(line, value, "")
            {
                Tokens = [new(TokenKind.Keyword, keyword)],
                Findings = [Say.BadValue(keyword, "use wants the file whose shapes are used, in quotes: use \"shapes.chl\".")],
            };
        var words = Words.OfRow(line, keyword.End);
        if (words.KindAt(0) != WordKind.Quote)
            return new UseLine(line, value, line.Substring(value.Start, value.Length))
            {
                Tokens = [new(TokenKind.Keyword, keyword), new(TokenKind.Unreadable, value)],
                Findings = [Say.BadValue(value, "The name of a file stands in quotes: use \"shapes.chl\".",
                    Say.Write($"\"{line.Substring(value.Start, value.Length)}\"", true, value))],
            };
        var quote = words[0].Span;
        ImmutableArray<Token> tokens = [new(TokenKind.Keyword, keyword), new(TokenKind.Quote, quote)];
        List<SyntaxFinding> findings = words.OpenQuote == 0 ? [Say.OpenQuote(words)] : [];
        if (words.Count > 1)
        {
            var rest = words.Between(1, words.Count - 1);
            tokens = tokens.Add(new(TokenKind.Unreadable, rest));
            findings.Add(Say.Unreadable(line, rest, "use takes one file, in quotes.", Say.Remove(rest)));
        }
        return Typed(new UseLine(line, quote, EventGrammar.Quoted(words, 0)) { Tokens = tokens, Findings = [.. findings] }, keyword, words.Plain);
    }

    /// <summary>Adds the finding about phone and mail typing, with a first word in capitals or with a colon counted in.</summary>
    public static T Typed<T>(T line, Span keyword, string? plain = null) where T : LineSyntax
    {
        if (plain is null && !NotPlain(line.Text, keyword))
            return line;
        var text = (plain ?? line.Text).ToCharArray();
        for (var i = keyword.Start; i < keyword.End; i++)
            text[i] = text[i] == ':' ? ' ' : char.ToLowerInvariant(Typing.Plain(text[i]));
        return Typing.Find(line.Text, new(text), line.Tokens) is { } typed ? line with { Findings = line.Findings.Add(typed) } : line;
    }

    private static bool NotPlain(string line, Span keyword) => !Scan.IsCode(line.AsSpan(keyword.Start, keyword.Length));

    private static bool EndsWithWord(this string line, Span span, string word) =>
        span.Length > word.Length && string.CompareOrdinal(line, span.End - word.Length, word, 0, word.Length) == 0 && Typing.IsBlank(line[span.End - word.Length - 1]);

    private static ImmutableArray<Token> Tokens(string line, Span opener)
    {
        var words = LineParser.Whole(line[opener.End..]).Shift(opener.End);
        return words.Length == 0 ? [new(TokenKind.Opener, opener)] : [new(TokenKind.Opener, opener), new(TokenKind.Words, words)];
    }
}
