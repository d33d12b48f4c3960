// A line cut into words, each classified once, so that the grammar above steps from word to word.
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Parsing;

/// <summary>What a word of a row falls into, by full match, in this order.</summary>
internal enum WordKind
{
    Quote, Bar, Equal, Count, Slots, Notes, Reserved, Shape, Other,
}

/// <summary>A word: where it stands, what it is, and what was read from it.</summary>
internal readonly record struct Word(Span Span, WordKind Kind, object? Node);

/// <summary>The words of a line. <see cref="Plain"/> is the line with phone and mail typing turned into plain signs, one for one.</summary>
internal sealed class Words
{
    private readonly List<Word> words = [];
    private readonly char[] plain;
    private At[]? places;

    private Words(string line)
    {
        Line = line;
        plain = line.ToCharArray();
        for (var i = 0; i < plain.Length; i++)
            if (plain[i] > '~')
                plain[i] = Typing.Plain(plain[i]);
    }

    /// <summary>The words of a row, setting or form line; a quote is one word.</summary>
    public static Words OfRow(string line, int from = 0)
    {
        var words = new Words(line);
        words.CutRow(from);
        words.Plain = new(words.plain);
        words.CloseQuote();
        return words;
    }

    /// <summary>The words of a chart line: bar lines and repeat signs part words as blanks do.</summary>
    public static Words OfChart(string line)
    {
        var words = new Words(line);
        words.CutChart();
        words.Plain = new(words.plain);
        return words;
    }

    public string Line { get; }

    public string Plain { get; private set; } = "";

    public int Count => words.Count;

    public Word this[int index] => words[index];

    /// <summary>A quote that was left open: its word, or -1.</summary>
    public int OpenQuote { get; private set; } = -1;

    /// <summary>The plain text of a word.</summary>
    public string Text(int index) => index < words.Count ? Plain.Substring(words[index].Span.Start, words[index].Span.Length) : "";

    /// <summary>The text of a word as the user wrote it.</summary>
    public string Written(int index) => Line.Substring(words[index].Span.Start, words[index].Span.Length);

    public bool Is(int index, string text) =>
        index < words.Count && words[index].Span.Length == text.Length && string.CompareOrdinal(Plain, words[index].Span.Start, text, 0, text.Length) == 0;

    public WordKind KindAt(int index) => index < words.Count ? words[index].Kind : WordKind.Other;

    /// <summary>The span from one word to another, both included.</summary>
    public Span Between(int first, int last) => words[first].Span.Join(words[last].Span);

    /// <summary>The place before a word, as Sprache takes it.</summary>
    public At At(int index)
    {
        if (places is null)
        {
            places = new At[words.Count + 1];
            for (var i = 0; i < places.Length; i++)
                places[i] = new(this, i);
        }
        return places[Math.Min(index, words.Count)];
    }

    /// <summary>True where a word can stand for a sound; a chord symbol cannot.</summary>
    public bool IsSound(int index) => index < words.Count && words[index].Kind switch
    {
        WordKind.Slots or WordKind.Notes or WordKind.Shape => true,
        WordKind.Reserved => Is(index, "rest") || Is(index, "tied") || Is(index, "again"),
        _ => false,
    };

    /// <summary>True where reading can begin anew: a count with its sound behind it, or a run's two counts.</summary>
    public bool IsEventStart(int index) =>
        KindAt(index) == WordKind.Count && (IsSound(index + 1) || Is(index + 1, "to") && KindAt(index + 2) == WordKind.Count);

    private void CutRow(int from)
    {
        for (var i = from; i < plain.Length;)
        {
            if (Typing.IsBlank(plain[i]))
            {
                i++;
                continue;
            }
            var start = i;
            if (plain[i] == '"')
            {
                var earlier = OpenQuote;
                i = Close(i);
                // Of several quotes left open, the first is the slip; the others are signs in it.
                var other = earlier >= 0 && i == start + 1;
                words.Add(new(Span.Between(start, i), other ? WordKind.Other : WordKind.Quote, null));
                continue;
            }
            var bar = plain[i] == '|';
            while (i < plain.Length && !Typing.IsBlank(plain[i]) && plain[i] != '"' && plain[i] == '|' == bar)
                i++;
            words.Add(bar ? new(Span.Between(start, i), WordKind.Bar, null) : Classify(Span.Between(start, i)));
        }
    }

    // A quote that opens curly may close curly; one that opens straight closes straight.
    private int Close(int open)
    {
        var close = plain.AsSpan(open + 1).IndexOf('"');
        if (Line[open] == '"')
            close = Line.AsSpan(open + 1).IndexOf('"');
        if (close >= 0)
            return open + close + 2;
        OpenQuote = OpenQuote < 0 ? words.Count : OpenQuote;
        return open + 1;
    }

    // What stands behind an open quote was cut as words: those up to the next count and sound are the quote's.
    private void CloseQuote()
    {
        if (OpenQuote < 0)
            return;
        var next = OpenQuote + 1;
        while (next < words.Count && !IsEventStart(next) && words[next].Kind != WordKind.Bar)
            next++;
        words[OpenQuote] = words[OpenQuote] with { Span = Between(OpenQuote, next - 1) };
        words.RemoveRange(OpenQuote + 1, next - OpenQuote - 1);
    }

    private void CutChart()
    {
        for (var i = 0; i < plain.Length;)
        {
            if (Typing.IsBlank(plain[i]))
            {
                i++;
                continue;
            }
            var start = i;
            if (IsBarSign(i))
            {
                while (i < plain.Length && plain[i] is '|' or ':')
                    i++;
                words.Add(new(Span.Between(start, i), WordKind.Bar, null));
                continue;
            }
            while (i < plain.Length && !Typing.IsBlank(plain[i]) && !IsBarSign(i))
                i++;
            var span = Span.Between(start, i);
            var count = Scan.Count(plain.AsSpan(start, span.Length), start);
            words.Add(new(span, count is null ? WordKind.Other : WordKind.Count, count));
        }
    }

    private bool IsBarSign(int i)
    {
        while (i < plain.Length && plain[i] == ':')
            i++;
        return i < plain.Length && plain[i] == '|';
    }

    private Word Classify(Span span)
    {
        var text = plain.AsSpan(span.Start, span.Length);
        if (text is "=")
            return new(span, WordKind.Equal, null);
        if (text[0] is >= 'a' and <= 'g')
            Typing.Capitals(text);
        object? node = Scan.Count(text, span.Start);
        if (node is not null)
            return new(span, WordKind.Count, node);
        node = Scan.Slots(text, span.Start) ?? Scan.Compact(text, span.Start);
        if (node is null && text.Contains('X') && Typing.SmallX(text))
            node = Scan.Slots(text, span.Start) ?? Scan.Compact(text, span.Start);
        if (node is not null)
            return new(span, WordKind.Slots, node);
        node = Scan.Notes(text, span.Start);
        if (node is not null)
            return new(span, WordKind.Notes, node);
        Typing.Small(text);
        var mark = text.IndexOf('@') is var sign && sign > 0 ? text[..sign] : text;
        if (Vocabulary.IsRowWord(mark))
            return new(span, WordKind.Reserved, null);
        if (text[0] is >= 'A' and <= 'G' && Scan.LooksLikeChord(Line.Substring(span.Start, span.Length)))
            return new(span, WordKind.Other, null);
        node = Scan.Shape(text, span.Start);
        return node is null ? new(span, WordKind.Other, null) : new(span, WordKind.Shape, node);
    }
}
