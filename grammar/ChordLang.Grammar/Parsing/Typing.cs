// What phones and mail programs make of plain signs, and the way back.
using System.Buffers;
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Parsing;

/// <summary>Turns typed variants into plain signs, one UTF-16 unit for one, so that offsets stay.</summary>
internal static class Typing
{
    /// <summary>The plain sign of a typed one.</summary>
    public static char Plain(char sign) => sign switch
    {
        '–' or '—' or '−' or '‐' or '‑' or '‒' => '-',
        '“' or '”' or '„' or '‟' or '«' or '»' or '＂' => '"',
        '×' or '✕' or '✗' => 'x',
        '♭' => 'b',
        '♯' or '＃' => '#',
        '＋' => '+',
        '＝' => '=',
        '＆' => '&',
        '｜' or '¦' or '│' => '|',
        _ => sign,
    };

    /// <summary>Blanks of all kinds; a byte order mark is one too.</summary>
    public static bool IsBlank(char sign) => char.IsWhiteSpace(sign) || sign == '\uFEFF';

    /// <summary>Turns small letters of pitches that have an octave into capitals: <c>eb4+g4</c>.</summary>
    public static void Capitals(Span<char> word)
    {
        Span<char> capital = word.Length <= 64 ? stackalloc char[word.Length] : new char[word.Length];
        word.CopyTo(capital);
        for (var i = 0; i < word.Length; i++)
            if (capital[i] is >= 'a' and <= 'g' && (i == 0 || capital[i - 1] == '+'))
                capital[i] = char.ToUpperInvariant(capital[i]);
        if (Scan.Notes(capital, 0) is { } notes && notes.Notes.All(n => n.Pitch is null or { Octave: not null }))
            capital.CopyTo(word);
    }

    private static readonly SearchValues<char> SlotSigns = SearchValues.Create("xX-0123456789");

    /// <summary>Turns X into x where the word is then made of slots; tells whether it did.</summary>
    public static bool SmallX(Span<char> word)
    {
        if (word.ContainsAnyExcept(SlotSigns))
            return false;
        word.Replace('X', 'x');
        return true;
    }

    /// <summary>Turns a word of the notation with capitals (<c>Rest</c>, <c>RING</c>) into small letters.</summary>
    public static void Small(Span<char> word)
    {
        if (word.Length > 16 || !word.ContainsAnyInRange('A', 'Z'))
            return;
        Span<char> small = stackalloc char[word.Length];
        ((ReadOnlySpan<char>)word).ToLowerInvariant(small);
        if (Vocabulary.IsRowWord(small))
            small.CopyTo(word);
    }

    /// <summary>The one finding about all typed variants among a line's tokens, or null. What is free text, and chord symbols, stay as written.</summary>
    public static SyntaxFinding? Find(string line, string plain, ImmutableArray<Token> tokens)
    {
        if (!line.AsSpan().ContainsAnyExceptInRange('\0', '~') && line == plain)
            return null;
        List<TextEdit> edits = [];
        var (at, first) = (0, default(Span));
        foreach (var token in tokens)
        {
            for (; at < token.Span.Start; at++)
                if (line[at] is '\u00A0' or '\u202F' or '\u2007')
                    Add(new(at, 1), " ");
            if (token.Kind is TokenKind.Quote)
            {
                Differ(token.Span.Start);
                Differ(token.Span.End - 1);
            }
            else if (token.Kind is not (TokenKind.Symbol or TokenKind.Words or TokenKind.Unreadable))
                for (var i = token.Span.Start; i < token.Span.End; i++)
                    Differ(i);
            at = token.Span.End;

            void Differ(int i)
            {
                if (line[i] == plain[i])
                    return;
                Add(new(i, 1), plain[i].ToString());
                first = edits.Count == 1 ? token.Span : first;
            }
        }
        return edits.Count == 0 ? null : Say.Typed(line, first, [.. edits]);

        void Add(Span span, string text)
        {
            if (edits is [.., var last] && last.Span.End == span.Start)
                edits[^1] = new(last.Span.Join(span), last.NewText + text);
            else
                edits.Add(new(span, text));
            first = edits.Count == 1 ? span : first;
        }
    }
}
