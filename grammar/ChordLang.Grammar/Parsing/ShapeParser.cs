// Reads shape lines: a movable voicing with a name of its own.
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using Sprache;

namespace ChordLang.Grammar.Parsing;

/// <summary>Reads <c>shape low-drop = 1-x-1-1-1-x fingers 1-x-2-3-4-x</c>.</summary>
internal static class ShapeParser
{
    private static readonly Parser<SlotsSound> Slots = i =>
        i is At { AtEnd: false, Word: { Kind: WordKind.Slots, Node: SlotsSound slots } } at ? Result.Success(slots, at.Next) : EventGrammar.Failure<SlotsSound>(i);

    private static readonly Parser<(Span Word, FingersOperand Fingers)> Fingers =
        from word in EventGrammar.Fixed("fingers")
        from fingers in EventGrammar.Fingers()
        select (word, fingers);

    private const string Form = "A shape is written with its name, = and its frets: shape low-drop = 1-x-1-1-1-x; fingers 1-x-2-3-4-x may follow.";

    /// <summary>Reads a shape line.</summary>
    public static LineSyntax Parse(string line, Span keyword)
    {
        var words = Words.OfRow(line, keyword.End);
        var paint = new Paint(words);
        SyntaxFinding? slip = null;
        if (words.Count == 0)
            return new ShapeLine(line, new(keyword.End, 0), null, null)
            {
                Tokens = [new(TokenKind.Keyword, keyword)],
                Findings = [Say.BadValue(keyword, Form)],
            };
        var named = words.KindAt(0) != WordKind.Equal && words.KindAt(1) == WordKind.Equal;
        if (words.KindAt(0) != WordKind.Equal)
        {
            paint.Set(words[0].Span, TokenKind.Name);
            slip = NameSlip(words);
        }
        var sign = named ? 1 : words.KindAt(0) == WordKind.Equal ? 0 : -1;
        if (sign >= 0)
            paint.Set(words[sign].Span, TokenKind.EqualSign);
        var slots = Slots(words.At(sign < 0 ? 1 : sign + 1));
        var at = sign < 0 ? 1 : sign + 1;
        FingersOperand? fingers = null;
        if (slots.WasSuccessful)
        {
            paint.Set(words[at++].Span, TokenKind.Frets);
            if (Fingers(words.At(at)) is { WasSuccessful: true, Value: var read })
            {
                (fingers, at) = (read.Fingers, at + 2);
                paint.Set(read.Word, TokenKind.Mark);
                paint.Set(fingers.Span, TokenKind.Operand);
            }
        }
        if (!named || !slots.WasSuccessful || at < words.Count)
            slip ??= Slip(words, at, keyword, named, slots.WasSuccessful);
        var name = words.KindAt(0) == WordKind.Equal ? new Span(words[0].Span.Start, 0) : words[0].Span;
        var result = new ShapeLine(line, name, slots.WasSuccessful ? slots.Value : null, fingers)
        {
            Tokens = paint.Tokens(new Token(TokenKind.Keyword, keyword)),
            Findings = slip is null ? [] : [slip],
        };
        return FreeText.Typed(result, keyword, words.Plain);
    }

    /// <summary>What is wrong with a shape's name, or null.</summary>
    private static SyntaxFinding? NameSlip(Words words)
    {
        var (span, name) = (words[0].Span, words.Text(0));
        if (words.KindAt(0) == WordKind.Shape && !name.Contains('+') && !Vocabulary.IsFirstWord(name))
            return null;
        var why = words.KindAt(0) switch
        {
            WordKind.Reserved => "is a word of the notation",
            WordKind.Notes => "would be read as a pitch",
            WordKind.Slots => "would be read as frets",
            WordKind.Count => "would be read as a count",
            _ when Vocabulary.IsFirstWord(name) => "is a word of the notation",
            _ when Scan.LooksLikeChord(words.Written(0)) => "would be read as a chord symbol",
            _ => "does not start with a letter, or holds other signs than letters, digits and hyphens",
        };
        return Say.Finding(SyntaxCodes.ShapeName, span,
            $"{Say.Shown(words.Written(0))} {why}. The name of a shape starts with a letter, may hold digits and hyphens, and holds a letter other than x: low-drop, nine-2.");
    }

    private static SyntaxFinding Slip(Words words, int at, Span keyword, bool named, bool slots)
    {
        if (!named && words.KindAt(0) != WordKind.Equal && slots)
            return Say.BadValue(words[1].Span, "Between the name of a shape and its frets stands =.", Say.Fix("Write = between them", true, new(words[1].Span.Start, 0), "= "));
        if (!named)
            return Say.BadValue(words.KindAt(0) == WordKind.Equal ? words[0].Span : keyword.Join(words[0].Span), Form);
        if (!slots)
            return at < words.Count ? Say.BadValue(words[at].Span, $"{Say.Shown(words.Written(at))} cannot be read as frets. {Form}") : Say.BadValue(words[1].Span, Form);
        if (words.Is(at, "fingers"))
            return Say.Finding(SyntaxCodes.MarkOperand, words.Between(at, words.Count - 1), "fingers wants one entry a string, lowest first: fingers 1-x-2-3-4-x; T is the thumb, 0 an open string, x no finger.");
        return Say.Unreadable(words.Line, words.Between(at, words.Count - 1), Form, Say.Remove(words.Between(at, words.Count - 1)));
    }
}
