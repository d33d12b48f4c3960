// The example files of the standard import, or say what of them a guitar arrangement does not hold.
using System.Text;
using System.Xml.Linq;
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.Scores;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.MusicXml;

// The examples of the W3C Community Final Specification lie beside the repository where it is built; nothing of them is in here.
[Trait("Needs", "musicxml-schema")]
public sealed class StandardExamplesTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "..", "shared", "reference", "musicxml-standard", "examples");

    [Fact]
    public void Every_example_imports_and_what_it_gives_can_be_read()
    {
        var files = Directory.GetFiles(Folder, "*.xml").Order(StringComparer.Ordinal).ToList();
        Assert.NotEmpty(files);
        Assert.All(files, file =>
        {
            var imported = ScoreReader.Read(Whole(file));
            var text = LessonWriter.Write(imported.Score);
            var errors = CheckCatalogue.Run(Binder.Bind(SyntaxTree.Parse(text))).Where(f => f.Severity == Severity.Error).ToList();
            Assert.True(errors.Count == 0, $"{file}\n{string.Join('\n', errors.Select(e => e.Message))}\n{text}");
        });
    }

    [Fact]
    public void What_they_say_for_guitars_is_carried()
    {
        var tablature = Text("technical-element-tablature.xml");
        Assert.Matches("@[1-6]|-[0-9]+-", tablature);
        Assert.Contains("bend", Text("bend-element.xml"), StringComparison.Ordinal);
        Assert.Contains("capo", Text("capo-element.xml"), StringComparison.Ordinal);
        Assert.DoesNotContain("strings", Text("staff-tuning-element.xml"), StringComparison.Ordinal);     // it is the standard tuning
    }

    [Theory]
    [InlineData("tap-element.xml", "tap is not carried")]
    [InlineData("barre-element.xml", "diagram")]
    [InlineData("string-mute-element-on.xml", "string mute")]
    [InlineData("numeral-root-element.xml", "cannot be said as a symbol")]
    public void What_guitars_or_our_notation_have_no_word_for_is_told(string name, string says) =>
        Assert.Contains(ScoreReader.Read(Whole(Path.Combine(Folder, name))).Losses, l => l.Message.Contains(says, StringComparison.Ordinal));

    private static string Text(string name) => LessonWriter.Write(ScoreReader.Read(Whole(Path.Combine(Folder, name))).Score);

    // Most examples are fragments, with marks of the page that shows them: they are put into the smallest score round them.
    private static byte[] Whole(string file)
    {
        var root = XElement.Parse(File.ReadAllText(file));
        while (root.DescendantsAndSelf("metadiff").FirstOrDefault() is { } mark)
            if (mark == root)
                root = root.Elements().Single();
            else
                mark.ReplaceWith(mark.Nodes());
        if (root.Name == "degree")
            root = new("harmony", XElement.Parse("<root><root-step>C</root-step></root>"), new XElement("kind", "dominant"), root);
        if (root.Name == "frame")
            root = new("harmony", XElement.Parse("<root><root-step>F</root-step></root>"), new XElement("kind", "major"), root);
        if (root.Name == "technical")
            root = new("notations", root);
        if (root.Name == "notations")
            root = new("note", XElement.Parse("<pitch><step>F</step><octave>3</octave></pitch>"), new XElement("duration", 8), root);
        if (root.Name == "staff-details" || root.Name == "clef")
            root = new("attributes", root);
        if (root.Name != "measure" && root.Name != "score-partwise")
            root = new("measure", new XAttribute("number", 1), root);
        if (root.Name == "measure")
        {
            if (root.Descendants("divisions").FirstOrDefault() is null)
                root.AddFirst(new XElement("attributes", new XElement("divisions", 8)));
            root = new("score-partwise", new XElement("part", new XAttribute("id", "P1"), root));
        }
        return Encoding.UTF8.GetBytes(root.ToString());
    }
}
