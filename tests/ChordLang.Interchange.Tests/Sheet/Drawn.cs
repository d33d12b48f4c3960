// Reads a sheet back: its drawings as XML, its numbers by their data attributes, and what the model says they should be.
using System.Text.RegularExpressions;
using System.Xml.Linq;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Sheet;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.Sheet;

internal static partial class Drawn
{
    public static (Piece Piece, PlacedPiece Placed) Sample(string sample)
    {
        var piece = Tests.Sample.Bind(sample);
        return (piece, PlacedPiece.Of(piece, Hand.Medium));
    }

    public static (Piece Piece, PlacedPiece Placed) Text(string text)
    {
        var piece = Binder.Bind(SyntaxTree.Parse(text));
        return (piece, PlacedPiece.Of(piece, Hand.Medium));
    }

    /// <summary>The drawing of a piece as XML; fails where it is not well formed.</summary>
    public static XDocument Svg((Piece Piece, PlacedPiece Placed) music, SheetOptions? options = null) => XDocument.Parse(SheetPage.Svg(music.Piece, music.Placed, options ?? new()));

    public static IEnumerable<XElement> With(this XDocument svg, string attribute) => svg.Descendants().Where(e => e.Attribute(attribute) is not null);

    public static string Of(this XElement element, string attribute) => element.Attribute(attribute)?.Value ?? "";

    /// <summary>What is struck in a piece and written out, note by note: bar, count, string, fret, pitch. Bars that a repeat sign stands for are left out.</summary>
    public static List<string> Struck(Piece piece, PlacedPiece placed)
    {
        var bars = piece.Bars.Where(b => b.Repeats is null || b.Rows.Any(r => !r.Borrowed)).Select(b => b.Index).ToHashSet();
        return [.. placed.Events.Where(e => bars.Contains(e.Event.Bar))
            .SelectMany(e => e.Notes.Select(n => (e.Event, n.Note, n.String, n.Fret)))
            .Concat(piece.Events.Where(e => bars.Contains(e.Bar) && e.Kind == EventKind.Struck).SelectMany(e => e.Notes.Where(n => n.Dead).Select(n => (Event: e, Note: n, n.String, n.Fret))))
            .Select(x => $"{piece.Bars[x.Event.Bar].Number} {piece.Bars[x.Event.Bar].CountOf(x.Event.Onset)} {x.String}.{x.Fret} {x.Note.Pitch}").Order(StringComparer.Ordinal)];
    }

    /// <summary>All elements of a page as name and attribute names, read by a reader of our own that knows nothing of the writer.</summary>
    public static IEnumerable<(string Name, List<(string Name, string Value)> Attributes)> Tags(string page) =>
        Tag().Matches(page).Select(m => (m.Groups[1].Value, Attribute().Matches(m.Groups[2].Value).Select(a => (a.Groups[1].Value, a.Groups[2].Value)).ToList()));

    public static IReadOnlyList<string> Samples => Repository.Samples("valid");

    [GeneratedRegex("<([A-Za-z][^\\s/>]*)([^>]*)>")]
    private static partial Regex Tag();

    [GeneratedRegex("([^\\s=\"'<>/]+)(?:\\s*=\\s*\"([^\"]*)\")?")]
    private static partial Regex Attribute();
}
