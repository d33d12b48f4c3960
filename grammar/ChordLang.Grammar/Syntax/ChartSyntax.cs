// What stands on a chart line: bars and chord symbols, delimited but not understood.
using System.Collections.Immutable;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Syntax;

/// <summary>One bar of a chart line.</summary>
/// <param name="Span">From its bar line to its last item, in offsets of the line.</param>
/// <param name="BarLine">Where the bar line stands.</param>
/// <param name="Items">What stands in it; empty for a bare bar, in which the chord before lasts on.</param>
public sealed record BarSyntax(Span Span, Span BarLine, ImmutableArray<ChartItem> Items);

/// <summary>What a chart item says.</summary>
public enum ChartItemKind
{
    /// <summary>A chord symbol.</summary>
    Chord,
    /// <summary><c>N.C.</c></summary>
    NoChord,
    /// <summary><c>%</c>: the bar before again.</summary>
    BarAgain,
    /// <summary>A lone <c>/</c>: one count more of the chord before.</summary>
    Slash,
}

/// <summary>An item of a bar, on its count where one is written.</summary>
/// <param name="Span">Where it stands, its count included.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Count">The count before it, or null.</param>
/// <param name="Symbol">The chord symbol, for a chord.</param>
public sealed record ChartItem(Span Span, ChartItemKind Kind, CountSyntax? Count, SymbolSyntax? Symbol);

/// <summary>A chord symbol, cut into root, suffix and bass. Typed variants (♭, −, …) stay as the user wrote them.</summary>
/// <param name="Span">The whole symbol.</param>
/// <param name="Root">Its root, as written.</param>
/// <param name="Suffix">What follows the root, as written; may be empty.</param>
/// <param name="Bass">The slash bass without the slash, or null.</param>
public sealed record SymbolSyntax(Span Span, string Root, string Suffix, string? Bass)
{
    /// <summary>As written.</summary>
    public string Text => Bass is null ? Root + Suffix : $"{Root}{Suffix}/{Bass}";
}
