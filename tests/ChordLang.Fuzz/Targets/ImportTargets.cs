// Files of other programs, sound and damaged: each is read, or refused in a sentence; what is read is a lesson in its canonical form.
using System.IO.Compression;
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Fuzz.Generating;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Interchange.Midi;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.Scores;
using ChordLang.Interchange.TabText;
using ChordLang.Testing;

namespace ChordLang.Fuzz.Targets;

internal static class ImportTargets
{
    private const int Seeds = 24;

    private static readonly string[] Elements =
    [
        "<duration>0</duration>", "<duration>-4</duration>", "<duration>99999999</duration>", "<backup><duration>8</duration></backup>", "<forward><duration>3</duration></forward>", "<chord/>", "<grace/>", "<rest/>", "<rest measure=\"yes\"/>",
        "<divisions>0</divisions>", "<divisions>7</divisions>", "<divisions>16383</divisions>", "<voice>2</voice>", "<staff>2</staff>", "<string>9</string>", "<string>0</string>", "<fret>99</fret>", "<alter>-1.5</alter>", "<octave>-9</octave>", "<octave>12</octave>",
        "<time><beats>3+2</beats><beat-type>8</beat-type></time>", "<time><senza-misura/></time>", "<beats>0</beats>", "<beat-type>3</beat-type>", "<fifths>99</fifths>", "<mode>none</mode>", "<transpose><chromatic>-12</chromatic></transpose>", "<capo>30</capo>",
        "<staff-details><staff-lines>6</staff-lines><staff-tuning line=\"1\"><tuning-step>E</tuning-step><tuning-octave>2</tuning-octave></staff-tuning></staff-details>", "<tie type=\"start\"/>", "<tie type=\"stop\"/>", "<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>",
        "<time-modification><actual-notes>0</actual-notes><normal-notes>2</normal-notes></time-modification>", "<barline><repeat direction=\"backward\" times=\"9\"/></barline>", "<barline><repeat direction=\"forward\"/></barline>", "<barline><ending number=\"1,2\" type=\"start\"/></barline>",
        "<harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>", "<harmony><root><root-step>H</root-step></root><kind text=\"\u001B\">other</kind></harmony>", "<harmony><kind>none</kind></harmony>", "<degree><degree-value>9</degree-value><degree-alter>-1</degree-alter><degree-type>add</degree-type></degree>",
        "<direction><direction-type><words>|</words></direction-type><sound tempo=\"0\" dacapo=\"yes\"/></direction>", "<rehearsal>A\n| C</rehearsal>", "<work-title>&#10;| C</work-title>", "<measure number=\"1\"/>", "<measure implicit=\"yes\" number=\"0\">", "</measure>", "<part id=\"P2\">", "<!-- -->", "<![CDATA[]]>", "&#0;", "&x;",
        "<!DOCTYPE score-partwise [<!ENTITY x \"y\">]>", "<unpitched/>", "<bend><bend-alter>1</bend-alter></bend>", "<harmonic/>", "<fingering>1</fingering>", "<notehead>x</notehead>", "<measure-repeat type=\"start\">1</measure-repeat>", "<senza-misura/>", "<part-name>a</part-name>",
    ];

    private static readonly string[] Tab =
        ["e|", "E|", "|", "||", "-", "--", "-0-", "12", "h", "p", "/", "\\", "b", "~", "x", "<12>", "(5)", "\n", "B|--3--|\n", "D", "6|", "1 & 2 &", "Am7", "C  G", "tuning: D A D G B E", "capo 2", "x2", "*", "o|", "=", "r", "^", "7b9", "t"];

    // Good files, made once; damage does the rest.
    private static readonly Lazy<string[]> Scores = new(() => [.. Pieces(1).Select(p => ScoreWriter.Write(p.Piece, p.Placed)), Repository.Text("samples/scores/doorstep.musicxml")]);
    private static readonly Lazy<string[]> Midis = new(() => [.. Pieces(2).Select(p => Encoding.Latin1.GetString(MidiWriter.Write(p.Piece)))]);
    private static readonly Lazy<string[]> Tabs = new(() => [.. Pieces(3).Select(p => TabWriter.Write(p.Piece, p.Placed)), Repository.Text("samples/scores/two-lines.txt")]);

    public static Target[] All { get; } =
    [
        new("import-musicxml", "a MusicXML score, plain or compressed, is read or refused in a sentence", 60, d => Damaged(d, Scores.Value, Elements), MusicXml) { Damage = (d, text, other) => Mutations.Text(d, text, other, Elements) },
        new("import-mxl", "a damaged archive is read or refused in a sentence", 40, Archive, t => Read("mxl", () => ScoreReader.Read(Encoding.Latin1.GetBytes(t)))) { Damage = Mutations.Bytes },
        new("import-midi", "a MIDI file is read or refused in a sentence", 80, d => Mutations.Bytes(d, d.Of(Midis.Value), d.Of(Midis.Value)), t => Read("MIDI", () => MidiReader.Read(Encoding.Latin1.GetBytes(t)))) { Damage = Mutations.Bytes },
        new("import-tab", "typed tablature is read or refused in a sentence", 60, d => d.One(8) ? Texts.Any(d) : Damaged(d, Tabs.Value, Tab), t => Read("tab text", () => TabReader.Read(t))) { Damage = (d, text, other) => Mutations.Text(d, text, other, Tab) },
    ];

    /// <summary>What is wrong with the lesson that is written of a score, or null.</summary>
    public static string? Written(string format, Score score)
    {
        var lesson = LessonWriter.Write(score);
        if (Formatter.Formatted(SourceText.From(lesson)).Text is var canonical && canonical != lesson)
            return $"{format} gives an arrangement that is not in its canonical form:\n{lesson}\nbut\n{canonical}";
        return SyntaxTree.Parse(lesson).Findings.FirstOrDefault() is { Finding: { } f } found ? $"{format} gives an arrangement that does not parse: {f.Code} in line {found.Line + 1} of\n{lesson}" : null;
    }

    private static string? Read(string format, Func<Imported> read)
    {
        try
        {
            return Written(format, read().Score);
        }
        catch (UnreadableScoreException e)
        {
            return e.Message.Length == 0 ? $"{format} is refused without a word"
                : e.Message.Any(c => char.IsControl(c)) ? $"{format} is refused in words that steer a terminal: {e.Message}" : null;
        }
    }

    private static string? MusicXml(string text) => Read("MusicXML", () => ScoreReader.Read(Encoding.UTF8.GetBytes(text)));

    private static string Damaged(Dice dice, string[] good, string[] tokens) => Mutations.Text(dice, dice.Of(good), dice.Of(good), tokens);

    // Packed by hand, for names and order are damaged too.
    private static string Archive(Dice dice)
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, true))
            foreach (var (name, content) in new[] { ("META-INF/container.xml", "<container><rootfiles><rootfile full-path=\"a.xml\"/></rootfiles></container>"), ("a.xml", dice.One(2) ? dice.Of(Scores.Value) : Damaged(dice, Scores.Value, Elements)), ("b", "") })
            {
                if (dice.One(12))
                    continue;
                using var stream = zip.CreateEntry(dice.One(12) ? dice.Of(" ", "../a.xml", "/a", "a.xml", "a\\b", "META-INF/") : name, dice.One(2) ? CompressionLevel.NoCompression : CompressionLevel.Fastest).Open();
                stream.Write(Encoding.UTF8.GetBytes(dice.One(12) ? Mutations.Text(dice, content, "", Elements) : content));
            }
        var whole = Encoding.Latin1.GetString(bytes.ToArray());
        return dice.One(4) ? whole : Mutations.Bytes(dice, whole, whole);
    }

    private static IEnumerable<(Arrangement.Music.Piece Piece, PlacedPiece Placed)> Pieces(int seed)
    {
        var dice = new Dice(seed);
        for (var i = 0; i < Seeds; i++)
        {
            var piece = Binder.Bind(SyntaxTree.Parse(Texts.Good(dice)));
            yield return (piece, PlacedPiece.Of(piece, Hand.Medium));
        }
    }
}
