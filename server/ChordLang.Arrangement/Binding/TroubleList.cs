// Gathers troubles while a piece is bound, and writes their spans in offsets of the text.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Arrangement.Binding;

/// <summary>The troubles of one binding. While <see cref="Quiet"/>, nothing is added: what <c>%</c> repeats was told where it is written.</summary>
internal sealed class TroubleList(SyntaxTree tree)
{
    private readonly List<Trouble> troubles = [];

    /// <summary>True while nothing is to be told.</summary>
    public bool Quiet { get; set; }

    /// <summary>Adds a trouble; the spans of its parts are offsets of the line.</summary>
    public void Add(int line, string code, Span span, string message, params ImmutableArray<Fix> fixes) =>
        Add(new Trouble(code, tree.Absolute(line, span), message) { Fixes = [.. fixes.Select(f => Moved(f, tree.Source.Lines[line].Start))] });

    /// <summary>Adds a trouble whose spans are offsets of the text.</summary>
    public void Add(Trouble trouble)
    {
        if (!Quiet)
            troubles.Add(trouble);
    }

    /// <summary>All troubles, in the order of the text.</summary>
    public ImmutableArray<Trouble> Ordered() => [.. troubles.OrderBy(t => t.Span.Start).ThenBy(t => t.Code, StringComparer.Ordinal)];

    /// <summary>A repair of one place.</summary>
    public static Fix Replace(string title, Span span, string text, bool safe = false) => new(title, safe, [new(span, text)]);

    private static Fix Moved(Fix fix, int by) => fix with { Edits = [.. fix.Edits.Select(e => e with { Span = e.Span.Shift(by) })] };
}
