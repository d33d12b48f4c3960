// A check whose findings were seen while the text was read or bound: it gives them their severity and their place among the others.
using System.Collections.Frozen;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Catalogue;

/// <summary>Reports what the parser or the binder saw under one name.</summary>
/// <param name="code">The name, from <see cref="SyntaxCodes"/> or <see cref="TroubleCodes"/>.</param>
/// <param name="severity">How grave it is.</param>
public abstract class ReportedCheck(string code, Severity severity) : Check
{
    private static readonly FrozenDictionary<string, string> Titles =
        SyntaxCodes.Titles.Concat(TroubleCodes.Titles).ToFrozenDictionary(t => t.Code, t => t.Title, StringComparer.Ordinal);

    /// <inheritdoc/>
    public sealed override string Code => code;

    /// <inheritdoc/>
    public sealed override string Title => Titles[code];

    /// <inheritdoc/>
    public sealed override Severity Severity => severity;

    /// <inheritdoc/>
    public sealed override IEnumerable<Finding> Find(Piece piece)
    {
        foreach (var (line, seen) in piece.Tree.Findings)
            if (seen.Code == code)
                yield return Read(piece.Tree, line, seen);
        foreach (var trouble in piece.Troubles)
            if (trouble.Code == code)
                yield return new(code, severity, trouble.Message, trouble.Span) { Fixes = trouble.Fixes, Related = trouble.Related, Strings = trouble.Strings };
    }

    private Finding Read(SyntaxTree tree, int line, SyntaxFinding seen) => new(code, severity, seen.Message, tree.Absolute(line, seen.Span))
    {
        Fixes = [.. seen.Fixes.Select(f => new Fix(f.Title, f.Safe, [.. f.Edits.Select(e => e with { Span = tree.Absolute(line, e.Span) })]))],
    };
}
