// Reads XML from strangers: no entities, nothing from elsewhere, bounded in depth and size.
using System.Text;
using System.Xml;
using System.Xml.Linq;
using ChordLang.Interchange.Scores;

namespace ChordLang.Interchange.MusicXml;

/// <summary>Reads a document element, or says in a sentence why not.</summary>
internal static class SafeXml
{
    // Scores of whole concerts stay far below these.
    private const int MostCharacters = 24_000_000, MostNodes = 1_200_000, MostDepth = 48;

    /// <summary>The document element.</summary>
    /// <exception cref="UnreadableScoreException">It is no XML, or not XML that is safe to read.</exception>
    public static XElement Read(byte[] bytes)
    {
        var settings = new XmlReaderSettings
        {
            DtdProcessing = DtdProcessing.Ignore, XmlResolver = null, MaxCharactersInDocument = MostCharacters, MaxCharactersFromEntities = 1024,
            IgnoreComments = true, IgnoreWhitespace = true, IgnoreProcessingInstructions = true, CloseInput = true,
        };
        try
        {
            using var reader = XmlReader.Create(new MemoryStream(bytes, false), settings);
            return Tree(reader);
        }
        catch (XmlException e)
        {
            throw new UnreadableScoreException(e.Message.Contains("entity", StringComparison.Ordinal) && !e.Message.Contains("MaxCharacters", StringComparison.Ordinal)
                ? $"it uses an entity of its own (line {e.LineNumber}), and those are never read: write the words themselves"
                : e.Message.Contains("MaxCharacters", StringComparison.Ordinal) ? $"it is longer than {MostCharacters / 1_000_000} million characters"
                : $"it is not well-formed XML: {LessonWriter.Line(e.Message).TrimEnd('.')}");
        }
        catch (Exception e) when (e is DecoderFallbackException or ArgumentException or NotSupportedException)
        {
            throw new UnreadableScoreException("its characters are not in the encoding that it names");
        }
    }

    // A loop, not recursion: a document may nest deeper than any stack.
    private static XElement Tree(XmlReader reader)
    {
        XElement? root = null, at = null;
        for (var nodes = 0; reader.Read();)
        {
            if (++nodes + (reader.NodeType == XmlNodeType.Element ? nodes += reader.AttributeCount : 0) > MostNodes)
                throw new UnreadableScoreException("it holds more elements than any score");
            if (reader.Depth > MostDepth)
                throw new UnreadableScoreException($"its elements stand in one another more than {MostDepth} deep");
            switch (reader.NodeType)
            {
                case XmlNodeType.Element:
                    var element = new XElement(reader.LocalName);
                    var empty = reader.IsEmptyElement;
                    while (reader.MoveToNextAttribute())
                        if (reader.NamespaceURI.Length == 0)
                            element.SetAttributeValue(reader.LocalName, reader.Value);
                    at?.Add(element);
                    root ??= element;
                    if (!empty)
                        at = element;
                    break;
                case XmlNodeType.EndElement:
                    at = at?.Parent;
                    break;
                case XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace:
                    at?.Add(new XText(reader.Value));
                    break;
            }
        }
        return root ?? throw new UnreadableScoreException("it holds no element");
    }
}
