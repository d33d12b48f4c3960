// What is written of any text: sentences from which the music comes back, scores that we read ourselves, drawings that are XML.
using System.Text;
using System.Xml;
using System.Xml.Linq;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Fuzz.Generating;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Midi;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.Scores;
using ChordLang.Interchange.Sheet;
using ChordLang.Interchange.Spoken;
using ChordLang.Interchange.TabText;
using ChordLang.Interchange.Tests.Spoken;

namespace ChordLang.Fuzz.Targets;

internal static class ExportTargets
{
    public static Target[] All { get; } =
    [
        new("describe", "pitches, strings, frets and rhythm are rebuilt from the sentences alone", 15, Texts.Any, Describe),
        new("export", "MusicXML and MIDI are read back, tablature is written", 4, Texts.Any, Export),
        new("sheet", "every drawing and page is well-formed XML and holds no script", 4, Texts.Any, Sheet),
    ];

    private static (Piece Piece, PlacedPiece Placed) Placed(string text)
    {
        var piece = Binder.Bind(SyntaxTree.Parse(text));
        return (piece, PlacedPiece.Of(piece, Hand.Medium));
    }

    private static string? Describe(string text)
    {
        var (piece, placed) = Placed(text);
        _ = Describer.Brief(piece, placed);
        // Prose, names and remarks may hold any words, those of our sentences too; they are not music.
        var words = string.Join('\n', Describer.Whole(piece, placed, prose: false).Where(s => s.Bar >= 0 && !s.Text.StartsWith("Section ", StringComparison.Ordinal)).Select(s => s.Text.Replace('\n', ' ')));
        var (wanted, heard) = (Listener.Wanted(piece, placed).Order(StringComparer.Ordinal).ToList(), Listener.Heard(words).Order(StringComparer.Ordinal).ToList());
        return wanted.SequenceEqual(heard) ? null : $"said\n{words}\nmeant {string.Join("; ", wanted.Except(heard).Take(3))}, heard {string.Join("; ", heard.Except(wanted).Take(3))}";
    }

    private static string? Export(string text)
    {
        var (piece, placed) = Placed(text);
        _ = TabWriter.Write(piece, placed);
        _ = ScoreWriter.Losses(piece);
        var score = ScoreWriter.Write(piece, placed);
        return Read("MusicXML", () => ScoreReader.Read(Encoding.UTF8.GetBytes(score))) ?? Read("MIDI", () => MidiReader.Read(MidiWriter.Write(piece)));
    }

    private static string? Read(string format, Func<Imported> read)
    {
        try
        {
            return ImportTargets.Written(format, read().Score);
        }
        catch (UnreadableScoreException e)
        {
            return $"our own {format} is refused: {e.Message}";
        }
    }

    private static string? Sheet(string text)
    {
        var (piece, placed) = Placed(text);
        foreach (var options in (IEnumerable<SheetOptions>)[new(), new() { Staves = Staves.Tab, Diagrams = Diagrams.Every, Large = true }])
            if (Xml(SheetPage.Svg(piece, placed, options)) is var svg && svg is null)
                return "the drawing is no XML";
            else if (svg.DescendantsAndSelf().Any(e => e.Name.LocalName == "script" || e.Attributes().Any(a => a.Name.LocalName.StartsWith("on", StringComparison.OrdinalIgnoreCase))))
                return "the drawing holds a script";
        return SheetPage.Html(piece, placed, new()).Contains("<script", StringComparison.OrdinalIgnoreCase) ? "the page holds a script" : null;
    }

    private static XElement? Xml(string text)
    {
        try
        {
            return XElement.Parse(text);
        }
        catch (XmlException)
        {
            return null;
        }
    }
}
