// How a selection grows: from a note to its sound, its event, its row, its bar, its section, the whole.
using System.Collections.Immutable;
using ChordLang.Features.Hovers;
using ChordLang.Features.Lessons;
using ChordLang.Features.Outlines;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Structure;

/// <summary>Grows selections.</summary>
public static class SelectionsAt
{
    /// <summary>The spans that hold an offset, smallest first, each inside the next; the last is the whole text.</summary>
    public static ImmutableArray<Span> Of(Lesson lesson, int offset)
    {
        var line = lesson.Text.LineAt(offset);
        var (syntax, start) = (lesson.Tree.Lines[line], lesson.Text.Lines[line].Start);
        List<Span> spans = [.. Inside(syntax).Where(s => s.Length > 0 && s.Touches(offset - start)).Select(s => s.Shift(start))];
        if (HoverAt.TokenAt(syntax, offset - start) is { } token)
            spans.Add(token.Span.Shift(start));
        spans.Add(new(start, lesson.Text.Lines[line].Length));
        if ((lesson.RowOn(line)?.Bar ?? lesson.BarsOn(line).LastOrDefault(b => b.Span.Touches(offset))) is { } bar)
            spans.Add(OutlineOf.BarSpan(lesson, bar));
        spans.AddRange(OutlineOf.Lesson(lesson.Chart).Where(p => p.Kind == PartKind.Section).Select(p => p.Span));
        spans.Add(new(0, lesson.Text.Length));
        var nested = ImmutableArray.CreateBuilder<Span>();
        foreach (var span in spans.OrderBy(s => s.Length).ThenBy(s => s.Start))
            if (span.Touches(offset) && (nested.Count == 0 || span.Length > nested[^1].Length && span.Start <= nested[^1].Start && span.End >= nested[^1].End))
                nested.Add(span);
        return nested.ToImmutable();
    }

    private static IEnumerable<Span> Inside(LineSyntax line) => line switch
    {
        RowLine row => row.Events.SelectMany(e => e.Sounds.SelectMany(Played).Append(e.Span).Append(e.Count.Span)),
        ChartLine chart => chart.Bars.SelectMany(b => b.Items.SelectMany(i => Item(i)).Append(b.Span)),
        SettingLine setting => [setting.ValueSpan],
        ShapeLine { Slots: { } slots } => [.. slots.Slots.Select(s => s.Span), slots.Span],
        UseLine { Quote.Length: > 2 } use => [new(use.Quote.Start + 1, use.Quote.Length - 2)],
        ExpectLine expect => [expect.Claim],
        _ => [],
    };

    private static IEnumerable<Span> Item(ChartItem item) => item.Symbol is { } s
        ? [new(s.Span.Start, s.Root.Length), new(s.Span.Start + s.Root.Length, s.Suffix.Length), s.Span, item.Span] : [item.Span];

    private static IEnumerable<Span> Played(PlayedSyntax played) => Sound(played.Sound).Append(played.Span).Concat(played.Marks.Select(m => m.Span));

    private static IEnumerable<Span> Sound(SoundSyntax sound) => sound switch
    {
        NotesSound notes => notes.Notes.SelectMany(n => n.Pitch is { } p ? new[] { p.Span, n.Span } : [n.Span]).Append(sound.Span),
        SlotsSound slots => slots.Slots.Select(s => s.Span).Append(sound.Span),
        ShapeSound shape => [shape.NameSpan, shape.Span],
        EqualSound equal => Sound(equal.Left).Concat(Sound(equal.Right)).Append(sound.Span),
        _ => [sound.Span],
    };
}
