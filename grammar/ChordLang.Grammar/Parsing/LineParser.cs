// Reads one line: tells its kind by the first token, then hands it to the grammar of that kind.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Parsing;

/// <summary>Reads one line; never fails.</summary>
public static class LineParser
{
    /// <summary>The longest line, in UTF-16 units, that is read into its parts; prose and comments may be longer.</summary>
    public const int LongestLine = 4000;

    /// <summary>Parses a line without its end.</summary>
    public static LineSyntax Parse(string line)
    {
        try
        {
            return Read(line);
        }
        // No line is known that comes here; but an editor must outlive a slip of this parser, and the line then says that it was not read.
        catch (Exception e) when (e is Sprache.ParseException or ArgumentException or InvalidOperationException or IndexOutOfRangeException or NullReferenceException)
        {
            return Lost(line);
        }
    }

    private static LineSyntax Read(string line)
    {
        if (MergeSign(line) is { } sign)
            return Merge(line, sign);
        var start = 0;
        while (start < line.Length && Typing.IsBlank(line[start]))
            start++;
        if (start == line.Length)
            return new BlankLine(line);
        switch (line[start])
        {
            case '>':
                return FreeText.Prose(line, start);
            case '/' when start + 1 < line.Length && line[start + 1] == '/':
                return FreeText.Comment(line, start);
        }
        if (line.Length > LongestLine)
            return new UnreadableLine(line) { Tokens = [new(TokenKind.Unreadable, Whole(line))], Findings = [Say.TooLong(Whole(line))] };
        if (Typing.Plain(line[start]) == '|' || line[start] == ':' && start + 1 < line.Length && line[start + 1] == '|')
            return ChartParser.Parse(line);
        var end = start;
        while (end < line.Length && !Typing.IsBlank(line[end]))
            end++;
        var word = line[start..end];
        var colon = word.IndexOf(':');
        var name = colon < 0 ? word : word[..colon];
        if (FirstWord(name) is { } first && (colon < 0 || colon == word.Length - 1))
            return FirstWordLine(line, first, new(start, word.Length));
        if (colon > 0 && char.IsLetter(word[0]) && name.All(c => char.IsLetterOrDigit(c) || c is '-' or '_'))
            return RowParser.Parse(line, new(start, colon + 1));
        if (char.IsLetter(word[0]) && (!IsRow(line) || IsChartWithoutItsBar(line)))
            return SlipInFirstWord.Parse(line, word, start);
        return char.IsLetterOrDigit(word[0]) || IsRow(line) ? RowParser.Parse(line, null) : Lost(line);
    }

    /// <summary>A line of which nothing can be said but that it cannot be read.</summary>
    public static LineSyntax Lost(string line) =>
        new UnreadableLine(line) { Tokens = [new(TokenKind.Unreadable, Whole(line))], Findings = [Say.Lost(line, Whole(line))] };

    /// <summary>The span of a line without the blanks around it.</summary>
    public static Span Whole(string line)
    {
        var (start, end) = (0, line.Length);
        while (start < end && Typing.IsBlank(line[start]))
            start++;
        while (end > start && Typing.IsBlank(line[end - 1]))
            end--;
        return Span.Between(start, end);
    }

    // The word in small letters, and with plain dashes, where it opens a line of its own kind.
    private static string? FirstWord(string word)
    {
        if (Vocabulary.FirstWords.Contains(word))
            return word;
        if (word.Length > 16)
            return null;
        var small = string.Concat(word.Select(c => char.ToLowerInvariant(Typing.Plain(c))));
        return Vocabulary.FirstWords.Contains(small) ? small : null;
    }

    private static LineSyntax FirstWordLine(string line, string word, Span keyword)
    {
        if (Vocabulary.Settings.TryGetValue(word, out var setting))
            return SettingParser.Parse(line, setting, keyword);
        return word switch
        {
            "section" => FreeText.Section(line, keyword),
            "shape" => ShapeParser.Parse(line, keyword),
            "use" => FreeText.Use(line, keyword),
            "expect" => ExpectParser.Parse(line, keyword),
            _ => FormParser.Parse(line, word, keyword),
        };
    }

    // A line whose first word is a sound is a row that lacks its count.
    private static bool IsRow(string line)
    {
        var words = Words.OfRow(line);
        return words.KindAt(0) is WordKind.Count or WordKind.Slots or WordKind.Notes or WordKind.Quote or WordKind.Equal || words.IsSound(0) && words.KindAt(0) != WordKind.Shape;
    }

    // Chord symbols with bar lines between them, of which the first is missing; C4 and D4 alone are pitches.
    private static bool IsChartWithoutItsBar(string line)
    {
        var words = Words.OfRow(line);
        var (bars, names) = (0, 0);
        for (var i = 0; i < words.Count; i++)
            if (words.KindAt(i) == WordKind.Bar)
                bars++;
            else if (words.KindAt(i) != WordKind.Count && words.Text(i) is not ("%" or "/" or "N.C."))
            {
                if (!Scan.LooksLikeChord(words.Written(i)))
                    return false;
                names += words.KindAt(i) == WordKind.Notes && words.Text(i)[^1] is >= '2' and <= '5' ? 0 : 1;
            }
        return bars > 0 && names > 0;
    }

    private static char? MergeSign(string line)
    {
        if (line.Length < 7 || line[0] is not ('<' or '=' or '>' or '|') || line.AsSpan(0, 7).ContainsAnyExcept(line[0]))
            return null;
        return line.Length == 7 || line[7] != line[0] ? line[0] : null;
    }

    private static MergeMarkerLine Merge(string line, char sign)
    {
        var tokens = ImmutableArray.Create(new Token(TokenKind.Opener, new(0, 7)));
        var rest = Whole(line[7..]).Shift(7);
        var message = "Here a merge was not finished: two versions of the music stand between seven < and seven >. Keep the bars you want and take out the lines that begin with <, =, > and |.";
        return new(line, sign)
        {
            Tokens = rest.Length > 0 ? tokens.Add(new(TokenKind.Words, rest)) : tokens,
            Findings = [Say.Finding(SyntaxCodes.MergeMarker, new(0, 7), message)],
        };
    }
}
