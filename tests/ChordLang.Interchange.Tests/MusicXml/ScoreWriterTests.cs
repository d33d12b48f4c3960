// What MusicXML carries of every sample, read back by a reader that knows only the standard.
using System.Globalization;
using System.Xml;
using System.Xml.Linq;
using System.Xml.Schema;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.MusicXml;
using ChordLang.Testing;
using ChordLang.Theory.Chords;

namespace ChordLang.Interchange.Tests.MusicXml;

public sealed class ScoreWriterTests
{
    public static TheoryData<string> Samples => [.. Repository.Samples("valid")];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Every_voice_fills_every_bar(string sample)
    {
        var piece = Sample.Bind(sample);
        var score = XDocument.Parse(Write(piece));
        var divisions = long.Parse(score.Descendants("divisions").First().Value, CultureInfo.InvariantCulture);
        foreach (var (measure, bar) in score.Descendants("measure").Zip(piece.Bars))
            foreach (var voice in measure.Elements("note").GroupBy(n => n.Element("voice")!.Value))
                Assert.Equal((bar.Length * Rational.Of(4 * divisions)).Value, voice.Where(n => n.Element("chord") is null && n.Element("grace") is null).Sum(n => (double)n.Element("duration")!));
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Pitches_onsets_strings_and_frets_come_back(string sample)
    {
        var piece = Sample.Bind(sample);
        var placed = PlacedPiece.Of(piece, Hand.Medium);
        var score = XDocument.Parse(ScoreWriter.Write(piece, placed));
        var wanted = placed.Events.SelectMany(e => e.Notes.Select(n => $"{e.Event.Onset.Value:0.#####} {n.Note.Midi} {n.String} {n.Fret}")).Order(StringComparer.Ordinal).ToList();
        Assert.Equal(wanted, Struck(score, piece).Order(StringComparer.Ordinal).ToList());
    }

    // MusicXML 4.0, kind-value: each of the 33 kinds that has a symbol of its own is written as itself.
    [Fact]
    public void Each_kind_is_written_as_itself()
    {
        foreach (var kind in ChordKinds.All.Where(k => k.Suffix is not null))
        {
            var piece = Binder.Bind(SyntaxTree.Parse($"| C{kind.Suffix}\n"));
            Assert.Equal(kind.Value, XDocument.Parse(Write(piece)).Descendants("kind").Single().Value);
        }
        Assert.Equal("none", XDocument.Parse(Write(Binder.Bind(SyntaxTree.Parse("| N.C.\n")))).Descendants("kind").Single().Value);
    }

    // MusicXML 4.0, kind-value and degree: what a symbol has beside its kind is added, and an added seventh counts from the dominant one.
    [Theory]
    [InlineData("Cdim(maj7)", "diminished", "add 7 1")]
    [InlineData("C13sus4", "suspended-fourth", "add 7 0, add 9 0, add 13 0")]
    public void What_a_kind_has_not_is_added(string symbol, string kind, string degrees)
    {
        var score = Write(Binder.Bind(SyntaxTree.Parse($"| {symbol}\n")));
        var harmony = XDocument.Parse(score).Descendants("harmony").Single();
        Assert.Equal(kind, harmony.Element("kind")!.Value);
        Assert.Equal(degrees, string.Join(", ", harmony.Elements("degree").Select(d => $"{d.Element("degree-type")!.Value} {d.Element("degree-value")!.Value} {d.Element("degree-alter")!.Value}")));
    }

    [Fact]
    public void Hostile_words_stay_words()
    {
        var score = Write(Binder.Bind(SyntaxTree.Parse("title <!ENTITY x \"&y;\"> \u0001\uDC80\n\n| C7\n> ]]> <script>\n    1 x-3-2-3-1-x \"&lt;\"\n")));
        var document = XDocument.Parse(score);
        Assert.Contains("<!ENTITY", document.Descendants("work-title").Single().Value, StringComparison.Ordinal);
        Assert.Null(document.DocumentType);
    }

    // The schema of the W3C Community Final Specification lies beside the repository where it is built; nothing of it is in here.
    [Theory]
    [Trait("Needs", "musicxml-schema")]
    [MemberData(nameof(Samples))]
    public void Samples_are_valid_by_the_schema_of_the_standard(string sample)
    {
        var troubles = new List<string>();
        var settings = new XmlReaderSettings { ValidationType = ValidationType.Schema, Schemas = Schema.Value };
        settings.ValidationEventHandler += (_, e) => troubles.Add(e.Message);
        using var reader = XmlReader.Create(new StringReader(Write(Sample.Bind(sample))), settings);
        while (reader.Read())
        {
        }
        Assert.Empty(troubles);
    }

    private static readonly Lazy<XmlSchemaSet> Schema = new(() =>
    {
        var folder = Path.Combine(Repository.Root, "..", "shared", "reference", "musicxml-standard");
        var set = new XmlSchemaSet { XmlResolver = null };
        foreach (var name in (string[])["xml.xsd", "xlink.xsd", "musicxml.xsd"])
        {
            using var reader = XmlReader.Create(Path.Combine(folder, name), new() { DtdProcessing = DtdProcessing.Ignore });
            set.Add(null, reader);
        }
        set.Compile();
        return set;
    });

    private static string Write(Piece piece) => ScoreWriter.Write(piece, PlacedPiece.Of(piece, Hand.Medium));

    // Struck notes of the tablature: onset in whole notes, MIDI number, string, fret.
    private static IEnumerable<string> Struck(XDocument score, Piece piece)
    {
        var divisions = (double)score.Descendants("divisions").First();
        foreach (var (measure, bar) in score.Descendants("measure").Zip(piece.Bars))
        {
            var (at, onset) = (0.0, 0.0);
            foreach (var element in measure.Elements())
            {
                var duration = (double?)element.Element("duration") ?? 0;
                if (element.Name == "backup")
                    at -= duration;
                if (element.Name != "note" || element.Element("grace") is not null)
                    continue;
                if (element.Element("chord") is null)
                    (onset, at) = (at, at + duration);
                if (element.Element("pitch") is not { } pitch || (string?)element.Element("staff") != "2" || element.Element("notehead") is not null
                    || element.Elements("tie").Any(t => (string?)t.Attribute("type") == "stop"))
                    continue;
                var midi = 12 * ((int)pitch.Element("octave")! + 1) + "C D EF G A B".IndexOf(pitch.Element("step")!.Value, StringComparison.Ordinal) + ((int?)pitch.Element("alter") ?? 0);
                var technical = element.Descendants("technical").Elements().ToLookup(t => t.Name.LocalName, t => t.Value);
                yield return $"{bar.Start.Value + onset / divisions / 4:0.#####} {midi} {technical["string"].SingleOrDefault()} {technical["fret"].SingleOrDefault()}";
            }
        }
    }
}
