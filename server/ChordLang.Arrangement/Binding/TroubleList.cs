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
    private List<Trouble>? row;

    /// <summary>True while nothing is to be told.</summary>
    public bool Quiet { get; set; }

    /// <summary>Adds a trouble; the spans of its parts are offsets of the line.</summary>
    public void Add(int line, string code, Span span, string message, params ImmutableArray<Fix> fixes)
    {
        if (Quiet)
            return;
        var trouble = new Trouble(code, span, message) { Fixes = fixes };
        Add(row is null ? Moved(trouble, tree.Source.Lines[line].Start) : trouble);
    }

    /// <summary>Adds a trouble whose spans are offsets of the text; of the line, while those of a row are kept apart.</summary>
    public void Add(Trouble trouble)
    {
        if (!Quiet)
            (row ?? troubles).Add(trouble);
    }

    /// <summary>Adds troubles of a row, whose line begins at an offset of the text.</summary>
    public void Add(ImmutableArray<Trouble> told, int lineStart)
    {
        foreach (var trouble in told)
            troubles.Add(Moved(trouble, lineStart));
    }

    /// <summary>What some work has to tell of one row, kept apart in offsets of its line.</summary>
    public ImmutableArray<Trouble> Of(bool quiet, Action work)
    {
        (row, Quiet) = ([], quiet);
        work();
        ImmutableArray<Trouble> told = [.. row];
        (row, Quiet) = (null, false);
        return told;
    }

    /// <summary>All troubles, in the order of the text.</summary>
    public ImmutableArray<Trouble> Ordered() => [.. troubles.OrderBy(t => t.Span.Start).ThenBy(t => t.Code, StringComparer.Ordinal)];

    /// <summary>A repair of one place.</summary>
    public static Fix Replace(string title, Span span, string text, bool safe = false) => new(title, safe, [new(span, text)]);

    private static Trouble Moved(Trouble trouble, int by) => trouble with
    {
        Span = trouble.Span.Shift(by), Related = [.. trouble.Related.Select(r => r.Path is null ? r with { Span = r.Span.Shift(by) } : r)],
        Fixes = [.. trouble.Fixes.Select(f => f with { Edits = [.. f.Edits.Select(e => e with { Span = e.Span.Shift(by) })] })],
    };
}
