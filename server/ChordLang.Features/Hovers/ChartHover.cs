// Hovers of a chart line: chord symbols, bar lines and the signs between them.
using ChordLang.Arrangement.Music;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Chords;

namespace ChordLang.Features.Hovers;

internal static class ChartHover
{
    public static HoverText? Of(Lesson lesson, int line, Token token, int column)
    {
        var span = lesson.Tree.Absolute(line, token.Span);
        var bars = lesson.BarsOn(line).ToList();
        var bar = bars.LastOrDefault(b => b.Syntax.Span.Start <= column) ?? bars.FirstOrDefault();
        switch (token.Kind)
        {
            case TokenKind.Bar:
                return bar is null ? HoverText.Of(span, "This bar line closes the bar before it and opens none.") : BarHover.Of(lesson.Chart, line, column, span);
            case TokenKind.Count when bar is not null && ItemAt(bar, token.Span) is { Count: { } count }:
                return CountHover.Of(bar, count.Offset, span, "the chord behind it begins");
            case TokenKind.Symbol when bar is not null && ItemAt(bar, token.Span)?.Symbol is { } symbol:
                return Symbol(lesson, lesson.Tree.Absolute(line, symbol.Span), symbol, bar);
            case TokenKind.ChartSign:
                return Sign(lesson, bar, span);
            default:
                return HoverAt.Unread(lesson, line, span);
        }
    }

    /// <summary>What a chord symbol means, and, where it stands on the chart, what it does there.</summary>
    public static HoverText Symbol(Lesson lesson, Span span, SymbolSyntax symbol, Bar? bar)
    {
        var reading = ChordReader.Read(symbol.Root, symbol.Suffix, symbol.Bass);
        if (reading.Chord is not { } chord)
            return HoverText.Of(span, $"{symbol.Text} is no chord symbol that can be read. {reading.Trouble!.Message}",
                reading.Trouble.Nearest.IsEmpty ? null : $"Perhaps {Say.List(reading.Trouble.Nearest.Take(3), "or")} is meant.");
        var first = $"{symbol.Text} has the tones {Say.Tones(chord)}{(chord.Bass is { } bass ? $", over {bass} in the bass" : "")}.";
        var index = bar is null ? -1 : lesson.Harmony.IndexAt(span);
        return HoverText.Of(span, first, [.. index < 0 ? [] : Function(lesson, index), Leaves(chord)]);
    }

    private static IEnumerable<string?> Function(Lesson lesson, int index)
    {
        var (written, functions) = (lesson.Harmony.Written, lesson.Harmony.Functions);
        var function = functions[index];
        yield return $"In {function.Key} it is {function.Numeral}, {Article(Words(function, written.Chart.Chords[index].Chord))}.";
        yield return function.Reason;
        if (function.Target is { } target && target < written.Places.Length && !function.Reason.Contains(written.Places[target].Symbol, StringComparison.Ordinal))
            yield return $"It leads to {written.Places[target].Symbol} in {Say.Bar(written.Chart.Chords[target].Bar)}.";
    }

    private static string? Leaves(Chord chord)
    {
        var optional = chord.Tones.Where(t => t.Role == ToneRole.Optional && (t.Degree.Number != 1 || chord.Tones.Length > 3)).ToList();
        // An altered chord keeps something altered: without it, it is another chord.
        var altered = chord.Tones.Any(t => t.Role == ToneRole.Essential && t.Degree.Number is 5 or 9 or 11 or 13) ? [] : optional.Where(t => t.Degree.Number != 1 && t.Degree.Alteration != 0).ToList();
        if (altered.Count < 2)
            return optional.Count == 0 ? null : $"Players may leave out {Names(optional)}.";
        var plain = optional.Except(altered).ToList();
        return (plain.Count == 0 ? "" : $"Players may leave out {Names(plain)}. ") + $"Of {Names(altered)} at least one is played.";

        static string Names(IEnumerable<ChordTone> tones) => Say.List(tones.Select(t => t.Name.ToString()));
    }

    private static HoverText Sign(Lesson lesson, Bar? bar, Span span) => lesson.Text[span] switch
    {
        "%" => HoverText.Of(span, bar?.Repeats is { } repeated
            ? $"This bar plays {Say.Bar(lesson.Piece.Bars[repeated])} again: {BarHover.Chords(lesson.Piece.Bars[repeated])}." : "% plays the bar before again."),
        "/" => HoverText.Of(span, "The chord before lasts for one count more."),
        _ => HoverText.Of(span, "No chord here: the harmony rests."),
    };

    private static ChartItem? ItemAt(Bar bar, Span token) => bar.Syntax.Items.FirstOrDefault(i => i.Span.Start <= token.Start && token.End <= i.Span.End);

    // What prepares a dominant belongs to it, and is none; what rests away from the first degree is no tonic of the key.
    private static string Words(Harmony.Functions.ChordFunction function, Chord chord) => function.Function switch
    {
        Harmony.Functions.HarmonicFunction.Dominant when chord.Colour() is not ("7" or "+" or "o") && function.Degree is not (7 or 11) => "preparation of a dominant",
        Harmony.Functions.HarmonicFunction.Tonic when function.Degree != 0 => "place of rest",
        var other => Harmony.Functions.FunctionNouns.Noun(other),
    };

    private static string Article(string word) => "a " + word;
}
