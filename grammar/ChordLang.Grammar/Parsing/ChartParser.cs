// Reads a chart line: bars, their counts and chord symbols.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using Sprache;

namespace ChordLang.Grammar.Parsing;

/// <summary>Reads chart lines; a slip in one bar leaves the others readable.</summary>
internal static class ChartParser
{
    private static readonly Parser<Span> Bar = i =>
        i is At { AtEnd: false, Word: { Kind: WordKind.Bar, Span: var span } } at ? Result.Success(span, at.Next) : EventGrammar.Failure<Span>(i);

    private static readonly Parser<(ChartItemKind Kind, Span Span, SymbolSyntax? Symbol)> Thing = i => i is At { AtEnd: false } at ? Read(at) : EventGrammar.Failure<(ChartItemKind, Span, SymbolSyntax?)>(i);

    private static readonly Parser<ChartItem> Item =
        from count in EventGrammar.Count.Optional()
        from thing in Thing
        select new ChartItem(count.IsEmpty ? thing.Span : count.Get().Span.Join(thing.Span), thing.Kind, count.GetOrDefault(), thing.Symbol);

    private static readonly Parser<(Span Bar, ImmutableArray<ChartItem> Items)> Bars =
        from bar in Bar
        from items in Item.Many()
        select (bar, items.ToImmutableArray());

    /// <summary>Reads a chart line.</summary>
    public static LineSyntax Parse(string line)
    {
        var words = Words.OfChart(line);
        var paint = new Paint(words);
        var bars = ImmutableArray.CreateBuilder<BarSyntax>();
        List<SyntaxFinding> findings = [];
        var i = 0;
        while (i < words.Count)
        {
            var read = Bars(words.At(i));
            i = ((At)read.Remainder).Index;
            var items = read.Value.Items;
            var recovering = false;
            while (i < words.Count && words.KindAt(i) != WordKind.Bar)
            {
                if (!recovering)
                    findings.Add(Slip(words, i));
                recovering = true;
                i++;
                if (i < words.Count && words.KindAt(i) == WordKind.Count && Item(words.At(i)) is { WasSuccessful: true })
                {
                    var more = Item.Many()(words.At(i));
                    items = items.AddRange(more.Value);
                    i = ((At)more.Remainder).Index;
                    recovering = false;
                }
            }
            foreach (var item in items)
                Paint(paint, item);
            // A bar line at the end closes; only one that stands alone opens a bare bar.
            if (i < words.Count || items.Length > 0 || recovering || bars.Count == 0)
                bars.Add(new(items is [.., var last] ? read.Value.Bar.Join(last.Span) : read.Value.Bar, read.Value.Bar, items));
        }
        if (SlipInBarLine.Find(words) is { } sign)
            findings.Add(sign);
        var tokens = paint.Tokens();
        if (Typing.Find(line, words.Plain, tokens) is { } typed)
            findings.Add(typed);
        return new ChartLine(line, bars.ToImmutable()) { Tokens = tokens, Findings = Say.Ordered(findings) };
    }

    private static IResult<(ChartItemKind, Span, SymbolSyntax?)> Read(At at)
    {
        var (words, span) = (at.Words, at.Word.Span);
        ChartItemKind? sign = span.Length > 4 ? null : words.Text(at.Index) switch
        {
            "/" => ChartItemKind.Slash, "%" => ChartItemKind.BarAgain, "N.C." => ChartItemKind.NoChord, _ => null,
        };
        if (sign is { } kind)
            return Result.Success((kind, span, (SymbolSyntax?)null), at.Next);
        if (at.Word.Kind == WordKind.Bar || Scan.Symbol(words.Written(at.Index), span.Start) is not { } symbol || HasOpenBracket(words, at.Index))
            return EventGrammar.Failure<(ChartItemKind, Span, SymbolSyntax?)>(at);
        return Result.Success((ChartItemKind.Chord, span, (SymbolSyntax?)symbol), at.Next);
    }

    // A bracket that goes on behind a blank: only there is a blank to blame; one that never closes is the chord reader's to find.
    private static bool HasOpenBracket(Words words, int i) => Closing(words, i) > i;

    private static int Closing(Words words, int i)
    {
        if (words.Text(i).LastIndexOf('(') <= words.Text(i).LastIndexOf(')'))
            return i;
        for (var j = i + 1; j < words.Count && j < i + 6 && words.KindAt(j) == WordKind.Other; j++)
            if (words.Text(j) is var text && text.Contains(')') && !text.Contains('('))
                return j;
        return i;
    }

    private static void Paint(Paint paint, ChartItem item)
    {
        if (item.Count is { } count)
            paint.Set(count.Span, TokenKind.Count);
        var thing = item.Count is { } c ? Span.Between(c.Span.End, item.Span.End) : item.Span;
        paint.Set(thing, item.Kind == ChartItemKind.Chord ? TokenKind.Symbol : TokenKind.ChartSign);
    }

    private static SyntaxFinding Slip(Words words, int i)
    {
        var (span, text) = (words[i].Span, words.Text(i));
        if (Closing(words, i) is var closing && closing > i)
        {
            var whole = words.Between(i, closing);
            var joined = string.Concat(Enumerable.Range(i, closing - i + 1).Select(words.Written));
            return Say.Unreadable(words.Line, whole, "Inside the brackets of a chord symbol stands no blank.", Say.Write(joined, true, whole));
        }
        if (words.KindAt(i) == WordKind.Count)
            return i + 1 < words.Count && words.KindAt(i + 1) == WordKind.Other && Scan.Symbol(words.Written(i + 1), 0) is null
                ? Slip(words, i + 1)
                : Say.Finding(SyntaxCodes.MissingSound, span, "Behind a count on a chart line stands a chord symbol, N.C. or %. Write one, or take the count out.");
        if (text is "NC" or "N.C" or "nc" or "n.c." or "N.c.")
            return Say.Unreadable(words.Line, span, "Where no chord sounds, write N.C.", Say.Write("N.C.", true, span));
        if (text.All(c => c is '.' or '-'))
            return Say.Unreadable(words.Line, span, "A chord lasts until the next one. Leave this out, write / for one count more, or write counts.", Say.Remove(span));
        if (Scan.Slots(text, 0) is not null || Scan.Compact(text, 0) is not null || text.Contains('@'))
            return Say.Finding(SyntaxCodes.SoundAsName, span, "A chart line carries names of chords. What is played stands in a row below it.");
        if (text[0] is >= 'a' and <= 'g' && Scan.LooksLikeChord(char.ToUpperInvariant(text[0]) + text[1..]))
        {
            var capital = char.ToUpperInvariant(text[0]) + words.Written(i)[1..];
            return Say.Unreadable(words.Line, span, $"A chord symbol begins with a capital: {capital}.", Say.Write(capital, true, span));
        }
        if (text[0] == 'H')
            return Say.Unreadable(words.Line, span, "The note that some call H is B here, and B flat is Bb.", Say.Write("B" + words.Written(i)[1..], false, span));
        if (char.IsAsciiDigit(text[0]) && Scan.Digits(text) < text.Length)
            return Say.Finding(SyntaxCodes.BadCount, span, $"{Say.Shown(text)} is no count. A count is a number of one or two digits with nothing, &, e, a, trip or let behind it, or with a fraction smaller than 1: 3+2/5.");
        if (text[0] == '"' || Vocabulary.IsRowWord(text))
            return Say.Unreadable(words.Line, span, "Marks and remarks stand in a row, behind the sound they are about.");
        if (i > 0 && words.KindAt(i - 1) == WordKind.Other && words.Written(i - 1) + words.Written(i) is var symbol
            && Scan.LooksLikeChord(words.Written(i - 1)) && Scan.LooksLikeChord(symbol))
            return Say.Unreadable(words.Line, words.Between(i - 1, i), $"A chord symbol holds no blank: {symbol}.", Say.Write(symbol, true, words.Between(i - 1, i)));
        return Say.Unreadable(words.Line, span, "A chart line holds chord symbols such as Am7, N.C., %, a lone / and counts.");
    }
}
