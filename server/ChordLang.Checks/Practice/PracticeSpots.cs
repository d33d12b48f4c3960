// Ranks the bars of a piece by how hard they likely are for the left hand, with the numbers behind and a hint for each.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Practice;

/// <summary>A spot to practise: a bar, and the bars that are just like it.</summary>
/// <param name="Bars">Numbers of the bars, as players count them, in order.</param>
/// <param name="Score">Higher is likely harder; comparable between bars of any piece for one hand.</param>
/// <param name="Numbers">The numbers behind, of the hardest of them.</param>
/// <param name="Shares">What each subject adds to the score, largest first; those that add nothing are left out.</param>
/// <param name="Reasons">The same in plain words.</param>
/// <param name="Hint">One way to practise it, in a sentence or two.</param>
public sealed record PracticeSpot(
    ImmutableArray<int> Bars, double Score, PracticeNumbers Numbers, ImmutableArray<(PracticeSubject Subject, double Score)> Shares, ImmutableArray<string> Reasons, string Hint);

/// <summary>Finds the spots of a piece.</summary>
public static class PracticeSpots
{
    /// <summary>All bars in which something is placed on strings, hardest first; bars alike share one spot. Notes without strings are placed first.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="library">Where it finds its files; the placed text is bound anew.</param>
    public static ImmutableArray<PracticeSpot> Of(Piece piece, ILibrary? library = null)
    {
        var placed = Placed(piece, library);
        var found = BarNumbers.Of(placed).Select(b => (b.Bar, b.Numbers, b.Content, Score: Score(b.Numbers))).ToList();
        return
        [
            .. found.GroupBy(b => b.Content).Select(g => (Bars: g.Select(b => b.Bar.Number).ToImmutableArray(), Hardest: g.MaxBy(b => b.Score)))
                .OrderByDescending(s => s.Hardest.Score).ThenBy(s => s.Bars[0]).Select(s => Told(s.Bars, s.Hardest.Numbers, s.Hardest.Score)),
        ];
    }

    /// <summary>The score of a bar: the sum of <see cref="PracticeTerm.Table"/>.</summary>
    public static double Score(PracticeNumbers numbers) => PracticeTerm.Table.Sum(t => t.Weight * t.Amount(numbers));

    private static PracticeSpot Told(ImmutableArray<int> bars, PracticeNumbers numbers, double score)
    {
        var shares = PracticeTerm.Table.GroupBy(t => t.Subject).Select(g => (Subject: g.Key, Score: g.Sum(t => t.Weight * t.Amount(numbers))))
            .Where(s => s.Score > 0).OrderByDescending(s => s.Score).ToImmutableArray();
        return new(bars, score, numbers, shares, [.. shares.Select(s => PracticeWords.Reason(s.Subject, numbers)).Where(r => r.Length > 0)],
            PracticeWords.Hint(numbers, [.. shares.Select(s => s.Subject)]));
    }

    // What is left open is placed as `place` would, and read again, so that all that looks at strings sees them.
    private static Piece Placed(Piece piece, ILibrary? library)
    {
        var edits = PlacedPiece.Of(piece, piece.Settings.Hand).Edits();
        return edits.IsEmpty ? piece : Binder.Bind(SyntaxTree.Parse(piece.Tree.Source.With(edits)), library);
    }
}
