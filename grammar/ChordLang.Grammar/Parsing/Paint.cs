// Gives each word of a line its token kind from what was read; what nothing claims stays unreadable.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Parsing;

/// <summary>Collects the token kinds of a line's words.</summary>
internal sealed class Paint
{
    private readonly Words words;
    private readonly TokenKind[] kinds;
    private int cursor;

    public Paint(Words words)
    {
        this.words = words;
        kinds = new TokenKind[words.Count];
        Array.Fill(kinds, TokenKind.Unreadable);
        for (var i = 0; i < kinds.Length; i++)
            if (words[i].Kind == WordKind.Bar)
                kinds[i] = TokenKind.Bar;
    }

    /// <summary>Paints all words inside a span.</summary>
    public void Set(Span span, TokenKind kind)
    {
        if (cursor >= kinds.Length || words[cursor].Span.Start > span.Start)
            cursor = 0;
        while (cursor < kinds.Length && words[cursor].Span.End <= span.Start)
            cursor++;
        for (; cursor < kinds.Length && words[cursor].Span.Start < span.End; cursor++)
            kinds[cursor] = kind;
    }

    public void Event(EventSyntax e)
    {
        Set(e.Count.Span, TokenKind.Count);
        if (e.To is { } to)
        {
            Set(Span.Between(e.Count.Span.End, to.Span.Start), TokenKind.Keyword);
            Set(to.Span, TokenKind.Count);
        }
        foreach (var played in e.Sounds)
        {
            Sound(played.Sound);
            foreach (var mark in played.Marks)
                Mark(mark);
        }
    }

    private void Sound(SoundSyntax sound)
    {
        if (sound is EqualSound equal)
        {
            Atom(equal.Left);
            Set(equal.Sign, TokenKind.EqualSign);
            Atom(equal.Right);
        }
        else
            Atom(sound);
    }

    private void Atom(SoundSyntax sound)
    {
        Set(sound.Span, sound switch
        {
            NotesSound notes => notes.Notes.Any(n => n.Pitch is not null) ? TokenKind.Pitch : TokenKind.Frets,
            SlotsSound => TokenKind.Frets,
            ShapeSound => TokenKind.Name,
            _ => TokenKind.SoundWord,
        });
        if (sound is ShapeSound { At: not null } shape)
            for (var i = 0; i < kinds.Length; i++)
                if (words[i].Span.Start > shape.NameSpan.Start && words[i].Span.End <= shape.Span.End)
                    kinds[i] = words.Is(i, "at") ? TokenKind.Keyword : TokenKind.Operand;
    }

    public void Mark(MarkSyntax mark)
    {
        if (mark.Kind == MarkKind.Remark)
        {
            Set(mark.Span, TokenKind.Quote);
            return;
        }
        Set(mark.Name, TokenKind.Mark);
        if (mark.Operand is { } operand && mark.Kind != MarkKind.Loudness)
            Set(operand.Span, operand switch
            {
                CountOperand => TokenKind.Count,
                NotesOperand n => n.Notes.Notes.Any(x => x.Pitch is not null) ? TokenKind.Pitch : TokenKind.Frets,
                SymbolOperand => TokenKind.Symbol,
                _ => TokenKind.Operand,
            });
    }

    /// <summary>The tokens of all words, behind one that stands first.</summary>
    public ImmutableArray<Token> Tokens(Token? first = null)
    {
        var tokens = ImmutableArray.CreateBuilder<Token>(kinds.Length + 1);
        if (first is { } token)
            tokens.Add(token);
        for (var i = 0; i < kinds.Length; i++)
            tokens.Add(new(kinds[i], words[i].Span));
        return tokens.ToImmutable();
    }
}
