// The structure of a row: events, sounds and marks, as a grammar over words.
using System.Collections.Frozen;
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using Sprache;

namespace ChordLang.Grammar.Parsing;

/// <summary>The grammar of events. Scanners take one word; the rest is composed of them.</summary>
internal static class EventGrammar
{
    /// <summary>A count, from the words.</summary>
    public static readonly Parser<CountSyntax> Count = Node<CountSyntax>(WordKind.Count);

    private static readonly Parser<NotesSound> Notes = Node<NotesSound>(WordKind.Notes);

    private static readonly Parser<int> Number = Take(text => text.Length is 1 or 2 && Scan.Digits(text) == text.Length ? Scan.Number(text) : (int?)null);

    private static readonly Parser<SoundSyntax> SoundWord = i =>
        i is At { AtEnd: false, Word: { Kind: WordKind.Reserved, Span: var span } } at && SoundOf(at, span) is { } sound
            ? Result.Success(sound, at.Next) : Failure<SoundSyntax>(i);

    private static readonly Parser<SoundSyntax> Shape =
        from shape in Node<ShapeSound>(WordKind.Shape)
        from at in Fixed("at").Then(_ => Spanned(Number)).Optional()
        select at.IsEmpty ? shape : shape with { At = at.Get().Value, Span = shape.Span.Join(at.Get().Span) };

    private static readonly Parser<SoundSyntax> Atom =
        Node<SoundSyntax>(WordKind.Slots).Or(Node<SoundSyntax>(WordKind.Notes)).Or(SoundWord).Or(Shape);

    private static readonly Parser<Span> EqualSign = i =>
        i is At { AtEnd: false, Word: { Kind: WordKind.Equal, Span: var span } } at ? Result.Success(span, at.Next) : Failure<Span>(i);

    /// <summary>A sound, perhaps described twice.</summary>
    public static readonly Parser<SoundSyntax> Sound =
        from left in Atom
        from right in (from sign in EqualSign from sound in Atom select (Sign: sign, Sound: sound)).Optional()
        select right.IsEmpty ? left : new EqualSound(left.Span.Join(right.Get().Sound.Span), left, right.Get().Sign, right.Get().Sound);

    /// <summary>A mark with its operand.</summary>
    public static readonly Parser<MarkSyntax> Mark =
        Remark().Or(
            from name in MarkName()
            from tail in name.Tail
            select new MarkSyntax(tail.Operand is { } o ? name.Word.Join(o.Span) : name.Word.Join(tail.Span ?? name.Word), tail.Kind,
                tail.Span is { } second ? name.Span.Join(second) : name.Span, name.String, tail.Operand));

    /// <summary>A sound with its marks.</summary>
    public static readonly Parser<PlayedSyntax> Played =
        from sound in Sound
        from marks in Mark.Many()
        select Join(sound, marks);

    private static readonly Parser<ImmutableArray<PlayedSyntax>> One =
        Played.Optional().Select(p => p.IsEmpty ? ImmutableArray<PlayedSyntax>.Empty : [p.Get()]);

    private static readonly Parser<ImmutableArray<PlayedSyntax>> Several = Played.Many().Select(p => p.ToImmutableArray());

    /// <summary>An event, or a run. It reads as far as it goes; whoever calls it looks at the word it stopped before.</summary>
    public static readonly Parser<EventSyntax> Event =
        from count in Count
        from to in Fixed("to").Then(_ => Count).Optional()
        from sounds in to.IsEmpty ? One : Several
        select new EventSyntax(sounds is [.., var last] ? count.Span.Join(last.Span) : count.Span.Join(to.GetOrDefault()?.Span ?? count.Span),
            count, to.GetOrDefault(), sounds);

    /// <summary>The fixed word of a given text.</summary>
    public static Parser<Span> Fixed(string text) => i =>
        i is At { AtEnd: false } at && at.Words.Is(at.Index, text) ? Result.Success(at.Word.Span, at.Next) : Failure<Span>(i);

    /// <summary>A word that a scanner reads.</summary>
    public static Parser<T> Take<T>(Func<string, T?> scan) where T : struct => i =>
        i is At { AtEnd: false } at && scan(at.Words.Text(at.Index)) is { } value ? Result.Success(value, at.Next) : Failure<T>(i);

    /// <summary>What a parser of one word gives, with the word's span.</summary>
    public static Parser<(T Value, Span Span)> Spanned<T>(Parser<T> parser) => i =>
        parser(i) is { WasSuccessful: true } r ? Result.Success((r.Value, ((At)i).Word.Span), r.Remainder) : Failure<(T, Span)>(i);

    /// <summary>A chord symbol, as the user wrote it. Where blanks stand in its brackets, it is read without them.</summary>
    public static readonly Parser<SymbolSyntax> Symbol = i =>
        i is At { AtEnd: false } at && Scan.Symbol(at.Words.Written(at.Index), at.Position) is { } symbol && IsName(at)
            ? Result.Success(symbol, at.Next) : Failure<SymbolSyntax>(i);

    /// <summary>A failure; what is said about it is decided by looking at the word, not here.</summary>
    public static IResult<T> Failure<T>(IInput at) => Result.Failure<T>(at, "", []);

    // Behind `is`, a pitch with a string, or frets, are no name.
    private static bool IsName(At at) => at.Word.Kind is not (WordKind.Slots or WordKind.Count) && !at.Words.Plain.AsSpan(at.Word.Span.Start, at.Word.Span.Length).Contains('@');

    private static Parser<T> Node<T>(WordKind kind) where T : class => i =>
        i is At { AtEnd: false } at && at.Word.Kind == kind && at.Word.Node is T node ? Result.Success(node, at.Next) : Failure<T>(i);

    private static SoundSyntax? SoundOf(At at, Span span) =>
        at.Words.Is(at.Index, "rest") ? new RestSound(span)
        : at.Words.Is(at.Index, "tied") ? new TiedSound(span)
        : at.Words.Is(at.Index, "again") ? new AgainSound(span) : null;

    private static PlayedSyntax Join(SoundSyntax sound, IEnumerable<MarkSyntax> marks)
    {
        var all = marks.ToImmutableArray();
        return new(all is [.., var last] ? sound.Span.Join(last.Span) : sound.Span, sound, all);
    }

    // What can follow a mark's first word. Span: a second word that belongs to the name.
    private sealed record Tail(MarkKind Kind, OperandSyntax? Operand = null, Span? Span = null);

    private readonly record struct Head(Span Word, Span Span, int? String, Parser<Tail> Tail);

    private static Parser<Head> MarkName() => i =>
    {
        if (i is not At { AtEnd: false, Word: { Kind: WordKind.Reserved, Span: var span } } at)
            return Failure<Head>(i);
        var text = at.Words.Text(at.Index);
        var sign = text.IndexOf('@');
        if (sign >= 0 && !(sign == text.Length - 2 && text[^1] is >= '1' and <= '9'))
            return Failure<Head>(i);
        if (!Tails.TryGetValue(sign < 0 ? text : text[..sign], out var tail))
            return Failure<Head>(i);
        if (tail is null)
        {
            var loudness = new Span(span.Start, sign < 0 ? span.Length : sign);
            tail = Parse.Return(new Tail(MarkKind.Loudness, new WordOperand(loudness, sign < 0 ? text : text[..sign])));
        }
        return Result.Success(new Head(span, new(span.Start, sign < 0 ? span.Length : sign), sign < 0 ? null : text[^1] - '0', tail), at.Next);
    };

    private static Parser<MarkSyntax> Remark() => i =>
        i is At { AtEnd: false, Word: { Kind: WordKind.Quote, Span: var span } } at
            ? Result.Success(new MarkSyntax(span, MarkKind.Remark, span, null, new WordOperand(span, Quoted(at.Words, at.Index))), at.Next)
            : Failure<MarkSyntax>(i);

    /// <summary>What stands between the quotes of a word.</summary>
    public static string Quoted(Words words, int index) =>
        words.OpenQuote == index ? words.Written(index)[1..] : words.Written(index)[1..^1];

    private static readonly Parser<NotesOperand> NotesAsOperand = Notes.Select(n => new NotesOperand(n.Span, n));

    private static readonly Parser<WordOperand> Half = Word("half").Or(Word("full"));

    private static readonly Parser<OperandSyntax> From = Word("below").Or<OperandSyntax>(Word("above")).Or(NotesAsOperand);

    private static readonly FrozenDictionary<string, Parser<Tail>?> Tails = new Dictionary<string, Parser<Tail>?>
    {
        ["ring"] = Second("until", MarkKind.RingUntil, Count.Select(c => new CountOperand(c.Span, c)))
            .Or(Fixed("over").Select(s => new Tail(MarkKind.RingOver, null, s))).Or(Alone(MarkKind.Ring)),
        ["short"] = Alone(MarkKind.Short), ["fermata"] = Alone(MarkKind.Fermata), ["accent"] = Alone(MarkKind.Accent),
        ["roll"] = Alone(MarkKind.Roll), ["slur"] = Alone(MarkKind.Slur), ["hammer"] = Alone(MarkKind.Hammer), ["pull"] = Alone(MarkKind.Pull),
        ["slide"] = Second("from", MarkKind.SlideFrom, From).Or(Alone(MarkKind.Slide)),
        ["grace"] = Operand(MarkKind.Grace, NotesAsOperand),
        ["bend"] = Second("to", MarkKind.BendTo, NotesAsOperand).Or(Operand(MarkKind.Bend, Half)),
        ["vibrato"] = Alone(MarkKind.Vibrato), ["harmonic"] = Alone(MarkKind.Harmonic), ["palm-mute"] = Alone(MarkKind.PalmMute),
        ["dead"] = Alone(MarkKind.Dead), ["unsure"] = Alone(MarkKind.Unsure),
        ["finger"] = Operand(MarkKind.Finger, Spanned(Take(t => Scan.Finger(t))).Select(f => new FingerOperand(f.Span, f.Value))),
        ["fingers"] = Operand(MarkKind.Fingers, Fingers()),
        ["pluck"] = Operand(MarkKind.Pluck, Spanned(TakeText(t => Scan.IsPluck(t))).Select(w => new WordOperand(w.Span, w.Value))),
        ["is"] = Operand(MarkKind.Is, Symbol.Select(s => new SymbolOperand(s.Span, s))),
        ["p"] = null, ["mp"] = null, ["mf"] = null, ["f"] = null,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Fingers, one a string.</summary>
    public static Parser<FingersOperand> Fingers() => i =>
        i is At { AtEnd: false } at && Scan.Fingers(at.Words.Text(at.Index), at.Position) is { } fingers ? Result.Success(fingers, at.Next) : Failure<FingersOperand>(i);

    private static Parser<string> TakeText(Func<string, bool> holds) => i =>
        i is At { AtEnd: false } at && at.Words.Text(at.Index) is var text && holds(text) ? Result.Success(text, at.Next) : Failure<string>(i);

    private static Parser<WordOperand> Word(string text) => Fixed(text).Select(s => new WordOperand(s, text));

    private static Parser<Tail> Alone(MarkKind kind) => Parse.Return(new Tail(kind));

    private static Parser<Tail> Operand(MarkKind kind, Parser<OperandSyntax> operand) => operand.Select(o => new Tail(kind, o));

    private static Parser<Tail> Second(string word, MarkKind kind, Parser<OperandSyntax> operand) =>
        from second in Fixed(word) from o in operand select new Tail(kind, o, second);
}
