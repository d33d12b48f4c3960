// The steps from text to findings, each by itself, for BenchmarkDotNet: time, and what each allocates.
using BenchmarkDotNet.Attributes;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Charts;
using ChordLang.Checks.Configuring;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Harmony.Functions;
using ChordLang.Harmony.Keys;
using ChordLang.Interchange.Sheet;
using ChordLang.Server.Lsp;

namespace ChordLang.Benchmarks;

/// <summary>One step each. BenchmarkDotNet wants a public class that is not sealed, and its methods not static.</summary>
[MemoryDiagnoser(false)]
public class Inside
{
    private const string Uri = "untitled:lesson.chl", Sign = " ";
    private readonly LineCache lines = new();
    private Documents documents = new(PositionEncoding.Utf16);
    private string text = "";
    private SyntaxTree tree = SyntaxTree.Parse("");
    private Piece piece = Binder.Bind(SyntaxTree.Parse(""));
    private int line, end, version;

    /// <summary>How long the lesson is.</summary>
    [Params(1000, 10_000)]
    public int Lines { get; set; }

    /// <summary>A lesson, opened, and a place to type in its middle.</summary>
    [GlobalSetup]
    public void Open()
    {
        text = Language.Lessons.Write(Lines);
        tree = SyntaxTree.Parse(SourceText.From(text), lines);
        documents = new(PositionEncoding.Utf16);
        (version, line) = (1, Enumerable.Range(tree.Lines.Length / 2, tree.Lines.Length / 2).First(i => Language.Lessons.Editable(tree.Source.LineText(i))));
        end = tree.Source.LineText(line).Length;
        _ = documents.Open(Uri, version, text)[0].Lesson.Findings;
        Fresh();
    }

    /// <summary>A piece of which nothing has been asked.</summary>
    [IterationSetup(Targets = [nameof(Harmony), nameof(Checks), nameof(Place), nameof(Sheet)])]
    public void Fresh() => piece = Binder.Bind(tree);

    /// <summary>All lines, none of them known.</summary>
    [Benchmark(Description = "parse")]
    public object Parse() => SyntaxTree.Parse(SourceText.From(text));

    /// <summary>A sign typed and taken back.</summary>
    [Benchmark(Description = "parse after an edit", OperationsPerInvoke = 2)]
    public object ParseAgain()
    {
        var at = tree.Source.Lines[line].Start + end;
        var typed = tree.With(new(new(at, 0), Sign), out _, lines);
        return typed.With(new(new(at, Sign.Length), ""), out _, lines);
    }

    /// <summary>Bars, events and times.</summary>
    [Benchmark(Description = "bind")]
    public object Bind() => Binder.Bind(tree);

    /// <summary>Keys and functions.</summary>
    [Benchmark(Description = "harmony")]
    public object Harmony()
    {
        var written = WrittenChart.Of(piece);
        return FunctionReader.Read(written.Chart, KeyFinder.Find(written.Chart, written.Given));
    }

    /// <summary>Every check.</summary>
    [Benchmark(Description = "checks")]
    public object Checks() => CheckCatalogue.Run(piece, Configuration.None);

    /// <summary>Strings and fingers for what leaves them open.</summary>
    [Benchmark(Description = "place")]
    public object Place() => PlacedPiece.Of(piece, Hand.Medium);

    /// <summary>All lines of the sheet.</summary>
    [Benchmark(Description = "sheet")]
    public object Sheet() => SheetWriter.Systems(piece, PlacedPiece.Of(piece, Hand.Medium), new());

    /// <summary>All that the server does between a change and what it tells, the protocol aside: a sign typed and taken back.</summary>
    [Benchmark(Description = "keystroke to findings, without the protocol", OperationsPerInvoke = 2)]
    public int Keystroke() => Typed(0, Sign) + Typed(Sign.Length, "");

    private int Typed(int take, string sign) =>
        documents.Change(Uri, ++version, [new(sign, new(new(line, end), new(line, end + take)))])[0].FindingsNow.Length;
}
