// Asks whether the silence at the start of a bar is meant, for a forgotten first note looks just like it.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Counts;

/// <summary>Finds bars that begin with a silence nobody wrote: no row starts on the first count and nothing sounds on from before.</summary>
public sealed class LateStart : Check
{
    /// <inheritdoc/>
    public override string Code => "count-late-start";

    /// <inheritdoc/>
    public override string Title => "A bar that begins with an unwritten silence";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Hint;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        var broken = Broken(piece);
        foreach (var bar in piece.Bars)
        {
            var rows = bar.Rows.Where(r => !r.Borrowed && r.Events.Length > 0).ToList();
            // A pickup begins late on purpose, and where a row could not be read whole its first event may be what is missing.
            if (bar.Number == 0 || rows.Count == 0 || bar.Rows.Any(r => broken.Contains(r.Line)))
                continue;
            if (rows.Any(r => r.Events[0].Onset <= bar.Start) || piece.SoundingAt(bar.Start).Length > 0)
                continue;
            var (first, start) = (rows[0].Events[0], bar.CountOf(bar.Start));
            yield return new(Code, Severity,
                $"Nothing sounds in this bar before {CountSyntax.Write(first.Offset)}. If the silence is meant, write {start} rest, so that nobody looks for the missing note.",
                first.CountSpan) { Fixes = [new($"Write {start} rest", true, [new(new(first.CountSpan.Start, 0), $"{start} rest  ")])] };
        }
    }

    private static HashSet<int> Broken(Piece piece)
    {
        var lines = piece.Troubles.Select(t => piece.Tree.Source.LineAt(t.Span.Start)).ToHashSet();
        foreach (var i in piece.Tree.Numbers)
            if (piece.Tree.Lines[i].Findings.Any(f => f.Code != SyntaxCodes.Typing))
                lines.Add(i);
        return lines;
    }
}
