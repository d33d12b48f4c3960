// The sheet formats of `chordlang export`: what was asked for, the numerals under the chords, and the way to PDF.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Checks.Charts;
using ChordLang.Features.Sheets;
using ChordLang.Harmony.Functions;
using ChordLang.Harmony.Keys;
using ChordLang.Harmony.Skeleton;
using ChordLang.Interchange.Sheet;

namespace ChordLang.Server.Cli;

/// <summary>Sheets on the command line.</summary>
internal static class SheetExport
{
    /// <summary>Options that only the sheet formats have.</summary>
    public static readonly Option[] Options =
    [
        new("--staves", "both|tab|staff", "sheet, svg, pdf: staff and tablature, or one of them (default: both)", ["both", "tab", "staff"]),
        new("--diagrams", "none|first|every", "sheet, svg, pdf: fret diagrams over no voicing, over the first use of each, over every one (default: first)", ["none", "first", "every"]),
        new("--numerals", null, "sheet, svg, pdf: the numeral of each chord under its name"),
        new("--skeleton", null, "sheet, svg, pdf: a line under the chord names that joins those which remain without decoration"),
        new("--large", null, "sheet, svg, pdf: large print, fewer bars a line"),
        new("--sound", null, "sheet: a page that plays when it is asked to, with its sound inside; without it a sheet holds no script"),
        new("--paper", "any|a4|letter", "sheet, pdf: the paper to print on (default: what the printer holds)", ["any", "a4", "letter"]),
    ];

    /// <summary>The page or drawing as text.</summary>
    public static string Write(Piece piece, PlacedPiece placed, Arguments arguments, ILibrary library)
    {
        var options = Read(piece, arguments, library);
        return arguments["--to"] == "svg" ? SheetPage.Svg(piece, placed, options) : SheetPage.Html(piece, placed, options);
    }

    /// <summary>Prints a page to a PDF file through a browser of the machine.</summary>
    public static void Print(string page, string path) => Workspace.Replacement.Write(path, HeadlessBrowser.Pdf(page));

    private static SheetOptions Read(Piece piece, Arguments arguments, ILibrary library) => new()
    {
        Staves = arguments["--staves"] switch { "tab" => Staves.Tab, "staff" => Staves.Staff, _ => Staves.Both },
        Diagrams = arguments["--diagrams"] switch { "none" => Diagrams.None, "every" => Diagrams.Every, _ => Diagrams.First },
        Paper = arguments["--paper"] switch { "a4" => Paper.A4, "letter" => Paper.Letter, _ => Paper.Any },
        Large = arguments.Has("--large"),
        Sound = arguments.Has("--sound"),
        Practise = arguments.Has("--sound") ? SheetWords.Practise(piece, library) : new HashSet<int>(),
        UnderChords = arguments.Has("--numerals") ? Numerals(piece) : new Dictionary<int, string>(),
        Skeleton = arguments.Has("--skeleton") ? Skeleton(piece) : new HashSet<int>(),
    };

    private static IReadOnlySet<int> Skeleton(Piece piece)
    {
        var written = WrittenChart.Of(piece);
        return SheetWords.Remaining(written, SkeletonReader.Read(written.Chart, KeyFinder.Find(written.Chart, written.Given)));
    }

    private static IReadOnlyDictionary<int, string> Numerals(Piece piece)
    {
        var written = WrittenChart.Of(piece);
        return SheetWords.Numerals(written, FunctionReader.Read(written.Chart, KeyFinder.Find(written.Chart, written.Given)));
    }
}
