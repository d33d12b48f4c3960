// Reads the form words of the trade, each on a line of its own.
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using Sprache;

namespace ChordLang.Grammar.Parsing;

/// <summary>Reads form lines.</summary>
internal static class FormParser
{
    private static readonly Parser<int> Number = EventGrammar.Take(t => t.Length is 1 or 2 && Scan.Digits(t) == t.Length && Scan.Number(t) > 0 ? Scan.Number(t) : (int?)null);

    /// <summary>Reads a form line.</summary>
    /// <param name="line">The line.</param>
    /// <param name="word">Its first word in small letters.</param>
    /// <param name="keyword">Where that stands, a colon behind it included.</param>
    public static LineSyntax Parse(string line, string word, Span keyword)
    {
        var words = Words.OfRow(line, keyword.End);
        var paint = new Paint(words);
        var (kind, at, fixedWords) = Kind(words, word);
        for (var i = 0; i < fixedWords; i++)
            paint.Set(words[i].Span, TokenKind.Keyword);
        if (kind is null)
            return FreeText.Typed(new UnreadableLine(line)
            {
                Tokens = paint.Tokens(new Token(TokenKind.Keyword, keyword)),
                Findings = [Say.BadValue(words.Count > 0 ? words.Between(0, words.Count - 1) : keyword, Wanted(word))],
            }, keyword);
        var (number, count) = (0, (CountSyntax?)null);
        SyntaxFinding? slip = null;
        if (kind is FormKind.Repeat or FormKind.Ending)
        {
            number = kind == FormKind.Repeat ? 2 : 1;
            if (Number(words.At(at)) is { WasSuccessful: true, Value: var read } && (kind == FormKind.Ending || read > 1))
                (number, at) = (read, at + 1);
            else if (at < words.Count || kind == FormKind.Ending)
                slip = Say.BadValue(at < words.Count ? words[at].Span : keyword, Wanted(word));
        }
        else if (kind == FormKind.Pickup)
        {
            if (EventGrammar.Count(words.At(at)) is { WasSuccessful: true, Value: var read })
                (count, at) = (read, at + 1);
            else
                slip = Say.BadValue(at < words.Count ? words[at].Span : keyword, Wanted(word));
        }
        if (at > fixedWords)
            paint.Set(words[at - 1].Span, count is null ? TokenKind.Operand : TokenKind.Count);
        if (at < words.Count)
        {
            var rest = words.Between(at, words.Count - 1);
            slip ??= Say.BadValue(rest, $"{Say.Shown(line.Substring(rest.Start, rest.Length))} is too much here. {Wanted(word)}", Say.Remove(rest));
        }
        var result = new FormLine(line, kind.Value, number, count)
        {
            Tokens = paint.Tokens(new Token(TokenKind.Keyword, keyword)),
            Findings = slip is null ? [] : [slip],
        };
        return FreeText.Typed(result, keyword, Small(words, fixedWords));
    }

    // The longest form whose fixed words stand here; how many words it takes behind the first.
    private static (FormKind? Kind, int At, int Fixed) Kind(Words words, string word)
    {
        for (var length = 3; length >= 0; length--)
        {
            if (length > words.Count)
                continue;
            var text = string.Join(' ', Enumerable.Range(0, length).Select(i => words.Text(i).ToLowerInvariant()).Prepend(word));
            if (Vocabulary.Forms.TryGetValue(text, out var kind))
                return (kind, length, length);
        }
        return (null, 0, 0);
    }

    private static string Wanted(string word) => word switch
    {
        "repeat" => "repeat says how often what follows is played, up to end: repeat 2.",
        "ending" => "ending says in which time through it is played: ending 1, ending 2.",
        "pickup" => "pickup says on which count the piece begins: pickup from 4&.",
        "to" => "The leap to the coda is written to coda.",
        "da" => "From the beginning again is written da capo, da capo al fine or da capo al coda.",
        "dal" => "From the sign again is written dal segno, dal segno al fine or dal segno al coda.",
        _ => $"{word} stands alone on its line.",
    };

    private static string Small(Words words, int fixedWords)
    {
        var text = words.Plain.ToCharArray();
        for (var i = 0; i < fixedWords; i++)
            for (var c = words[i].Span.Start; c < words[i].Span.End; c++)
                text[c] = char.ToLowerInvariant(text[c]);
        return new(text);
    }
}
