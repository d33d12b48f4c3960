// Keeps the list of exceptions honest: an allow must name a check and silence something.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;

namespace ChordLang.Checks.Catalogue;

/// <summary>Reports an <c>allow</c> that silences nothing or names no check; made while findings are silenced.</summary>
public sealed class UnusedAllow : Check
{
    /// <summary>Its name.</summary>
    public const string Name = "text-unused-allow";

    /// <inheritdoc/>
    public override string Code => Name;

    /// <inheritdoc/>
    public override string Title => "An allow that silences nothing";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece) => [];

    /// <summary>What is wrong with an allow: nothing, or one finding.</summary>
    internal static IEnumerable<Finding> Of(Piece piece, Allow allow, bool used)
    {
        if (!CheckCatalogue.All.Any(c => c.Code == allow.Code))
            yield return new(Name, Severity.Warning, $"No check is called '{allow.Code}', so this allow silences nothing. "
                + "Take the name from the finding you mean to silence.", allow.Span)
            {
                Fixes = [.. Nearest(allow.Code).Select(n => new Fix($"Write {n}", true, [new(allow.Span, n)])), Removal(piece, allow)],
            };
        else if (!used)
            yield return new(Name, Severity.Warning, $"Nothing here is found by {allow.Code} any more, so this allow silences nothing. "
                + "Remove it: it would hide the next real slip.", allow.Span) { Fixes = [Removal(piece, allow)] };
    }

    private static Fix Removal(Piece piece, Allow allow)
    {
        var line = piece.Tree.Source.Lines[allow.Line];
        return new("Remove the allow", true, [new(new(line.Start, line.Length + line.EndLength), "")]);
    }

    private static ImmutableArray<string> Nearest(string code) =>
    [
        .. CheckCatalogue.All.Select(c => (c.Code, Away: Distance(code, c.Code))).Where(n => n.Away <= Math.Max(2, n.Code.Length / 3))
            .OrderBy(n => n.Away).ThenBy(n => n.Code, StringComparer.Ordinal).Take(2).Select(n => n.Code),
    ];

    // Levenshtein's distance: how many letters are added, dropped or changed.
    private static int Distance(string a, string b)
    {
        if (a.Length > 100)
            return int.MaxValue;
        var row = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var corner = row[0];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
                (corner, row[j]) = (row[j], Math.Min(Math.Min(row[j], row[j - 1]) + 1, corner + (a[i - 1] == b[j - 1] ? 0 : 1)));
        }
        return row[^1];
    }
}
