// How long a piece of 300 bars takes to be placed: from nothing, and after one edit.
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Benchmarks;

internal static class PlacementFigures
{
    private const int Bars = 300;

    // After an edit most of the search is known; a machine that is busy slows both figures alike, so their ratio is what fails.
    private const double MostOfWhole = 0.6;

    /// <summary>Measures and tells; 1 where an edit costs like a new search.</summary>
    public static int Run()
    {
        var figures = Measured().ToList();
        foreach (var f in figures)
            Console.WriteLine($"{f.Name}: {f.Median:0.0} ms (median of {f.Runs}; aim {f.Aim:0} ms){(f.Median > f.Aim ? "  not reached here" : "")}");
        var ratio = figures[1].Median / figures[0].Median;
        Console.WriteLine($"after one edit: {ratio:P0} of the whole (at most {MostOfWhole:P0})");
        return ratio > MostOfWhole ? 1 : 0;
    }

    private static IEnumerable<Figure> Measured()
    {
        var piece = Bind(Text(-1));
        var placed = PlacedPiece.Of(piece, Hand.Medium);
        yield return Figure.Of($"place {Bars} bars from nothing", 150, 15, _ => PlacedPiece.Of(piece, Hand.Medium));
        // One note of one bar is another each time; parsing and binding are not part of it.
        var edited = Enumerable.Range(0, 40).Select(i => Bind(Text(37 + 6 * i))).ToArray();
        yield return Figure.Of($"place {Bars} bars after one edit", 10, 30, i => PlacedPiece.Of(edited[i], Hand.Medium, before: placed));
    }

    private static Piece Bind(string text) => Binder.Bind(SyntaxTree.Parse(text));

    // A walking voice in eighths over a bass in halves, with a chord in every fourth bar; no two neighbouring bars are alike.
    private static string Text(int changed)
    {
        string[] scale = ["G3", "A3", "B3", "C4", "D4", "E4", "F#4", "G4", "A4", "B4", "C5", "D5"], bass = ["G2", "E2", "A2", "D3", "B2", "C3"];
        var text = new StringBuilder("key G major\nmeter 4/4\n\n");
        for (var bar = 0; bar < Bars; bar++)
        {
            text.Append("|\n    top: ");
            for (var i = 0; i < 8; i++)
                text.Append($" {i / 2 + 1}{(i % 2 == 1 ? "&" : "")} {scale[(bar * 5 + i * (1 + bar % 3) + (bar == changed && i == 3 ? 1 : 0)) % scale.Length]}");
            text.Append(bar % 4 == 3 ? "\n    low:  1 G2+D3+B3\n" : $"\n    low:  1 {bass[bar % 6]} ring   3 {bass[(bar * 2 + 1) % 6]}\n");
        }
        return text.ToString();
    }
}
