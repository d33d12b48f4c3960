// Says what was probably meant by a line whose first word is nothing known.
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Parsing;

/// <summary>Lines with an unknown first word.</summary>
internal static class SlipInFirstWord
{
    /// <summary>The unreadable line with its one finding.</summary>
    public static LineSyntax Parse(string line, string word, int start)
    {
        var whole = LineParser.Whole(line);
        var keyword = new Span(start, word.Length);
        var token = new Token(TokenKind.Unreadable, whole);
        return new UnreadableLine(line) { Tokens = [token], Findings = [Find(line, word, keyword)] };
    }

    private static SyntaxFinding Find(string line, string word, Span keyword)
    {
        var words = Words.OfRow(line);
        if (Enumerable.Range(0, words.Count).All(i => words.KindAt(i) is WordKind.Count or WordKind.Bar || Scan.LooksLikeChord(words.Written(i))))
            return Say.Finding(SyntaxCodes.ChordInRow, keyword, $"{word} is a chord symbol, and chord symbols stand on a chart line, which begins with |.",
                Say.Fix("Make this a chart line", false, new(0, keyword.Start), "| "));
        if (words.Count > 1 && words.IsEventStart(1) && Vocabulary.Nearest(word, Vocabulary.FirstWords) is null && Scan.IsName(word))
            return Say.Finding(SyntaxCodes.UnknownSetting, keyword, $"{Say.Shown(word)} opens no line. If it names a voice, a colon belongs behind it: {word}:.",
                Say.Fix($"Write {word}:", false, new(keyword.End, 0), ":"));
        if (word.IndexOf('=') is > 0 and var equal && Vocabulary.Settings.ContainsKey(word[..equal].ToLowerInvariant()))
            return Say.Finding(SyntaxCodes.UnknownSetting, new(keyword.Start + equal, 1), "Between a setting and its value stands a blank.",
                Say.Fix($"Write {word[..equal].ToLowerInvariant()} {word[(equal + 1)..]}".TrimEnd(), true, new(keyword.Start + equal, 1), " "));
        var name = word.TrimEnd(':');
        var near = Meant(name.ToLowerInvariant()) ?? Vocabulary.Nearest(name, Vocabulary.FirstWords);
        if (near is not null)
            return Say.Finding(SyntaxCodes.UnknownSetting, keyword, $"{Say.Shown(word)} opens no line. Did you mean {near}?", Say.Write(near, false, keyword));
        if (words.KindAt(0) is WordKind.Reserved or WordKind.Shape && words.Count > 1 && words.KindAt(1) == WordKind.Count)
            return Say.Finding(SyntaxCodes.MissingCount, keyword, $"A row begins with a count, and {word} is none. Write the count on which it starts in front of it.");
        return Say.Finding(SyntaxCodes.UnknownSetting, keyword,
            $"{Say.Shown(word)} opens no line. A line begins with |, a count, a voice label such as top:, a setting such as key, a form word such as repeat, > for teaching text or // for a comment.",
            Say.Fix("Make it teaching text", false, new(keyword.Start, 0), "> "));
    }

    // Words of other trades and tongues for what the notation calls by one name.
    private static string? Meant(string word) => word switch
    {
        "name" or "song" or "piece" => "title",
        "composer" or "author" or "artist" or "arranger" => "by",
        "time" or "metre" or "signature" or "timesignature" or "time-signature" or "timesig" => "meter",
        "keysignature" or "key-signature" or "keysig" => "key",
        "bpm" or "speed" => "tempo",
        "style" or "groove" or "rhythm" => "feel",
        "tuning" => "strings",
        "scale" or "mensur" => "scale-length",
        "part" or "verse" or "chorus" or "bridge" or "intro" => "section",
        "voicing" or "chord" or "define" => "shape",
        "include" or "import" => "use",
        "volta" => "ending",
        "upbeat" or "anacrusis" => "pickup from",
        "d.c." or "d.c" or "dc" => "da capo",
        "d.s." or "d.s" or "ds" => "dal segno",
        _ => null,
    };
}
