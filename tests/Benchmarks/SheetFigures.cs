// How long a piece of 200 bars takes to be drawn: the whole page, and the live sheet after one bar was changed.
using System.Diagnostics;
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Interchange.Sheet;

namespace ChordLang.Benchmarks;

internal static class SheetFigures
{
    private const int Bars = 200;

    // A machine that is busy slows both figures alike, so their ratio is what fails: drawing after an edit against drawing the whole.
    private const double MostOfWhole = 0.4;

    /// <summary>Measures and tells; 1 where a live sheet is drawn like a whole page, or where more lines were drawn anew than an edit can reach.</summary>
    /// <param name="program">The program whose pipe is measured too, or null.</param>
    public static int Run(Options? program)
    {
        var (options, cache, memory) = (new SheetOptions(), new LineCache(), new BindingMemory());
        var tree = SyntaxTree.Parse(SourceText.From(Text()), cache);
        var piece = Binder.Bind(tree, memory: memory);
        var placed = PlacedPiece.Of(piece, Hand.Medium);
        var live = LiveSheet.Of(piece, placed, options);
        var (most, stages) = (0, new double[3]);
        Figure Page() => Figure.Of($"draw the page of {Bars} bars", 60, 30, _ => SheetPage.Html(piece, placed, options));
        // All that an edit costs until it can be seen: read, bind, put on the strings, draw.
        Figure Edit() => Figure.Of($"live sheet of {Bars} bars after one bar was changed", 16, 60, i =>
        {
            var edit = Edited(tree.Source.Text, i);
            var watch = Stopwatch.StartNew();
            tree = tree.With(edit, out _, cache);
            var edited = Binder.Bind(tree, memory: memory);
            stages[0] += Lap(watch);
            placed = PlacedPiece.Of(edited, Hand.Medium, before: placed);
            stages[1] += Lap(watch);
            live = LiveSheet.Of(edited, placed, options, live);
            stages[2] += Lap(watch);
            most = Math.Max(most, live.Redrawn);
        });
        // The first round pays for the compiler.
        _ = (Page(), Edit());
        Array.Clear(stages);
        var began = Environment.CpuUsage.TotalTime;
        var whole = Page();
        var between = Environment.CpuUsage.TotalTime;
        var edit = Edit();
        var ended = Environment.CpuUsage.TotalTime;
        foreach (var f in (Figure[])[whole, edit])
            Console.WriteLine($"{f.Name}: {f.Median:0.0} ms (median of {f.Runs}; aim {f.Aim:0} ms){(f.Median > f.Aim ? "  not reached here" : "")}");
        Console.WriteLine($"processor time a run: the page {(between - began).TotalMilliseconds / (whole.Runs + Figure.Warm):0.0} ms, the live sheet {(ended - between).TotalMilliseconds / (edit.Runs + Figure.Warm):0.0} ms");
        Console.WriteLine($"of the live sheet: {stages[0] / stages.Sum():P0} to read and bind, {stages[1] / stages.Sum():P0} to place, {stages[2] / stages.Sum():P0} to draw");
        var ratio = stages[2] / (edit.Runs + Figure.Warm) / whole.Median;
        Console.WriteLine($"drawn after one edit: {ratio:P0} of the time of the whole (at most {MostOfWhole:P0}), {most} of {live.Parts.Count(p => p.Line is not null)} lines drawn anew at most");
        if (program is not null)
            SheetPipe.Run(program, Text(), Edited);
        return ratio > MostOfWhole || most > 3 ? 1 : 0;
    }

    // A pitch of the voice on top, behind its count: another one, which is longer or shorter, so that all behind it moves.
    private static TextEdit Edited(string text, int edit)
    {
        var at = text.IndexOf(" 4 ", text.IndexOf($"// bar {7 + edit * 3 % (Bars - 10)} ", StringComparison.Ordinal), StringComparison.Ordinal) + 3;
        var name = text[at + 1] is '#' or 'b' ? 2 : 1;
        return new(new(at, name), name == 1 ? text[at] == 'A' ? "Bb" : "Ab" : "A");
    }

    private static double Lap(Stopwatch watch)
    {
        var lap = watch.Elapsed.TotalMilliseconds;
        watch.Restart();
        return lap;
    }

    // Two voices, two chords a bar, a grip in every fourth; no two neighbouring bars are alike.
    private static string Text()
    {
        string[] scale = ["G3", "A3", "B3", "C4", "D4", "E4", "F#4", "G4", "A4", "B4", "C5", "D5"], bass = ["G2", "E2", "A2", "D3", "B2", "C3"];
        string[] chords = ["Gmaj7", "Em7", "Am7", "D7b9", "Bm7", "E7#9", "Cmaj7", "F#m7b5"];
        var text = new StringBuilder("title Two hundred bars\nkey G major\nmeter 4/4\ntempo 96\n\n");
        for (var bar = 0; bar < Bars; bar++)
        {
            if (bar % 16 == 0)
                text.Append($"section Part {bar / 16 + 1}\n\n");
            text.Append($"// bar {bar} \n| 1 {chords[bar % 8]}  3 {chords[(bar * 3 + 1) % 8]}\n    top: ");
            for (var i = 0; i < 8; i++)
                text.Append($" {i / 2 + 1}{(i % 2 == 1 ? "&" : "")} {scale[(bar * 5 + i * (1 + bar % 3)) % scale.Length]}");
            text.Append(bar % 4 == 3 ? "\n    low:  1 G2+D3+B3\n\n" : $"\n    low:  1 {bass[bar % 6]} ring   3 {bass[(bar * 2 + 1) % 6]}\n\n");
        }
        return text.ToString();
    }
}
