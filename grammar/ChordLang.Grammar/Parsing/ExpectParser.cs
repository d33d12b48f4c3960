// Reads expectations: a closed list of claims about a piece.
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using Sprache;
using static ChordLang.Grammar.Parsing.EventGrammar;

namespace ChordLang.Grammar.Parsing;

/// <summary>Reads expect lines.</summary>
internal static class ExpectParser
{
    private static readonly Parser<int> Number = Take(t => t.Length is > 0 and <= 3 && Scan.Digits(t) == t.Length ? Scan.Number(t) : (int?)null);

    private static readonly Parser<string> ShapeName = i =>
        i is At { AtEnd: false, Word.Kind: WordKind.Shape } at ? Result.Success(at.Words.Text(at.Index), at.Next) : Failure<string>(i);

    private static readonly Parser<string> GuitarString = Take(t => t is [>= '1' and <= '9'] ? t[0] - '0' : (int?)null).Select(n => $"{n}");

    private static readonly Parser<string> VoicingKind = Take(t => Vocabulary.VoicingKinds.IndexOf(t) is >= 0 and var kind ? kind : (int?)null).Select(k => Vocabulary.VoicingKinds[k]);

    private static readonly Parser<Expectation> No =
        from no in Fixed("no")
        from claim in
            (from fret in Fixed("fret")
             from side in Fixed("above").Select(_ => ExpectKind.NoFretAbove).Or(Fixed("below").Select(_ => ExpectKind.NoFretBelow))
             from number in Number
             select new Expectation(side, number, []))
            .Or(Phrase("open strings", ExpectKind.NoOpenStrings))
            .Or(Phrase("findings", ExpectKind.NoFindings))
        select claim;

    private static readonly Parser<Expectation> Only =
        from only in Fixed("only")
        from claim in
            (from word in Fixed("shapes") from names in ShapeName.AtLeastOnce() select new Expectation(ExpectKind.OnlyShapes, 0, [.. names]))
            .Or(from word in Fixed("voicings") from names in VoicingKind.AtLeastOnce() select new Expectation(ExpectKind.OnlyVoicings, 0, [.. names]))
            .Or(from word in Fixed("strings") from names in GuitarString.AtLeastOnce() select new Expectation(ExpectKind.OnlyStrings, 0, [.. names]))
        select claim;

    private static readonly Parser<Expectation> AtMost =
        from at in Fixed("at")
        from most in Fixed("most")
        from number in Number.Where(n => n > 0)
        from notes in Fixed("notes")
        from at2 in Fixed("at")
        from once in Fixed("once")
        select new Expectation(ExpectKind.AtMostNotes, number, []);

    private static readonly Parser<Expectation> Bars =
        from bars in Fixed("bars") from number in Number.Where(n => n > 0) select new Expectation(ExpectKind.Bars, number, []);

    private static readonly Parser<Expectation> Claim =
        No.Or(Only).Or(AtMost).Or(Bars).Or(Phrase("top note is melody", ExpectKind.TopNoteIsMelody)).Or(Phrase("every voicing named", ExpectKind.EveryVoicingNamed));

    private const string Wanted = "expect takes one of these: no fret above 12, no fret below 5, no open strings, only shapes low-drop, only voicings drop-2 shell, only strings 1 2 3 4, " +
        "top note is melody, every voicing named, at most 4 notes at once, bars 32, no findings.";

    /// <summary>Reads an expect line.</summary>
    public static LineSyntax Parse(string line, Span keyword)
    {
        var words = Words.OfRow(line, keyword.End);
        if (words.Count == 0)
            return new ExpectLine(line, null, new(keyword.End, 0)) { Tokens = [new(TokenKind.Keyword, keyword)], Findings = [Say.BadValue(keyword, Wanted)] };
        var paint = new Paint(words);
        var read = Claim(words.At(0));
        var end = read.WasSuccessful ? ((At)read.Remainder).Index : 0;
        for (var i = 0; i < end; i++)
            paint.Set(words[i].Span, words.KindAt(i) == WordKind.Count ? TokenKind.Operand : read.Value.Names.Contains(words.Text(i)) ? TokenKind.Name : TokenKind.Keyword);
        var claim = words.Between(0, words.Count - 1);
        var slip = end == words.Count ? null
            : Say.BadValue(end == 0 ? claim : words.Between(end, words.Count - 1), $"{Say.Shown(line.Substring(claim.Start, claim.Length))} is no claim that can be verified. {Wanted}");
        var result = new ExpectLine(line, read.WasSuccessful ? read.Value : null, claim)
        {
            Tokens = paint.Tokens(new Token(TokenKind.Keyword, keyword)),
            Findings = slip is null ? [] : [slip],
        };
        return FreeText.Typed(result, keyword, words.Plain);
    }

    private static Parser<Expectation> Phrase(string words, ExpectKind kind)
    {
        var phrase = words.Split(' ').Select(Fixed).Aggregate((all, next) => all.Then(_ => next));
        return phrase.Select(_ => new Expectation(kind, 0, []));
    }
}
