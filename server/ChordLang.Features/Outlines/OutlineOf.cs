// The parts of a lesson as a tree whose entries also read well without it.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Outlines;

/// <summary>What a part is.</summary>
public enum PartKind { Section, Bar, Shape }

/// <summary>A part of a lesson.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Name">Its name; says all that is needed where the list is flat: "Bar 3: Gmaj7, then E7".</param>
/// <param name="Detail">More, or null.</param>
/// <param name="Span">All of it.</param>
/// <param name="Selection">What to go to; inside <paramref name="Span"/>.</param>
/// <param name="Parts">What it holds.</param>
public sealed record OutlinePart(PartKind Kind, string Name, string? Detail, Span Span, Span Selection, ImmutableArray<OutlinePart> Parts);

/// <summary>Reads outlines.</summary>
public static class OutlineOf
{
    /// <summary>The parts of a lesson, in order: shapes, sections with their bars, and bars of no section.</summary>
    public static ImmutableArray<OutlinePart> Lesson(Lesson lesson)
    {
        var (tree, piece) = (lesson.Tree, lesson.Piece);
        var parts = new List<OutlinePart>();
        for (var i = 0; i < tree.Lines.Length; i++)
            if (tree.Lines[i] is ShapeLine { Name.Length: > 0 } shape)
                parts.Add(new(PartKind.Shape, $"Shape {shape[shape.Name]}", shape.Slots is { } slots ? shape[slots.Span] : null, Line(tree, i), tree.Absolute(i, shape.Name), []));
        var sectioned = new bool[piece.Bars.Length];
        foreach (var section in piece.Sections)
        {
            var bars = section.Again ? [] : piece.Bars.Skip(section.FirstBar).Take(section.BarCount).ToList();
            foreach (var bar in bars)
                sectioned[bar.Index] = true;
            var syntax = (SectionLine)tree.Lines[section.Line];
            var span = Line(tree, section.Line);
            if (bars.Count > 0)
                span = span.Join(BarSpan(lesson, bars[^1]));
            parts.Add(new(PartKind.Section, Named(section), Held(piece, section), span,
                syntax.Name.Length > 0 ? tree.Absolute(section.Line, syntax.Name) : Line(tree, section.Line), [.. bars.Select(b => Bar(lesson, b))]));
        }
        parts.AddRange(piece.Bars.Where(b => !sectioned[b.Index]).Select(b => Bar(lesson, b)));
        return [.. parts.OrderBy(p => p.Span.Start)];
    }

    /// <summary>A bar with its rows and the prose between them, in offsets of the text.</summary>
    internal static Span BarSpan(Lesson lesson, Bar bar)
    {
        var last = bar.Rows.Where(r => !r.Borrowed).Select(r => r.Line).DefaultIfEmpty(bar.Line).Max();
        return last > bar.Line ? Span.Between(bar.Span.Start, lesson.Text.Lines[last].End) : bar.Span;
    }

    private static string Named(Section section) => section.Name.Length == 0 ? "Section without a name" : $"Section {section.Name}{(section.Again ? " again" : "")}";

    private static string Held(Piece piece, Section section) => section.BarCount switch
    {
        0 => "no bars",
        1 => $"bar {piece.Bars[section.FirstBar].Number}",
        var n => $"bars {piece.Bars[section.FirstBar].Number} to {piece.Bars[section.FirstBar + n - 1].Number}",
    };

    private static OutlinePart Bar(Lesson lesson, Bar bar) => new(PartKind.Bar, $"{(bar.Number == 0 ? "Pickup" : $"Bar {bar.Number}")}: {Chords(bar)}",
        bar.Rows.Length == 0 ? null : bar.Rows.Length == 1 ? "1 row" : $"{bar.Rows.Length} rows", BarSpan(lesson, bar), bar.Span, []);

    private static string Chords(Bar bar) => bar.Chords.IsEmpty ? "no chord yet" : string.Join(", then ", bar.Chords.Select(c => c.Symbol?.Text ?? "no chord"));

    private static Span Line(SyntaxTree tree, int line) => new(tree.Source.Lines[line].Start, tree.Source.Lines[line].Length);
}
