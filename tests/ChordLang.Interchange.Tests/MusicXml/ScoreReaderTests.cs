// Scores as other programs write them: both orders, transposing parts, shared endings, partial ties, chords of every kind.
using System.Text;
using System.Xml.Linq;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.Scores;
using ChordLang.Theory.Chords;

namespace ChordLang.Interchange.Tests.MusicXml;

public sealed class ScoreReaderTests
{
    public static TheoryData<string> Kinds => [.. ChordKinds.All.Select(k => k.Value)];

    [Theory]
    [InlineData("samples/valid/third-floor-blues.chl")]
    [InlineData("samples/valid/ferry-at-dusk.chl")]
    public void Timewise_is_partwise_turned(string sample)
    {
        var piece = Sample.Bind(sample);
        var partwise = XElement.Parse(ScoreWriter.Write(piece, PlacedPiece.Of(piece, Hand.Medium)));
        var timewise = new XElement("score-timewise", partwise.Elements().Where(e => e.Name != "part"),
            partwise.Element("part")!.Elements("measure").Select(m => new XElement("measure", m.Attributes(), new XElement("part", new XAttribute("id", "P1"), m.Elements()))));
        Assert.Equal(Text(partwise), Text(timewise));
    }

    // MusicXML 4.0, kind-value: a symbol of ours means each of the 33 kinds, but for "other", which is nothing but its degrees.
    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_chord_of_every_kind_has_a_symbol(string kind)
    {
        var (score, losses) = Read($"<harmony><root><root-step>E</root-step><root-alter>-1</root-alter></root><kind>{kind}</kind></harmony>{Note("E", 4, 4)}");
        if (kind == "none")
            Assert.Null(Assert.Single(score.Bars[0].Chords).Symbol);
        else if (score.Bars[0].Chords is [{ Symbol: { } symbol }])
            Assert.Equal(kind == "other" ? "pedal" : kind, ChordReader.Read(symbol).Chord!.Kind);
        else
            Assert.Single(losses);
    }

    [Theory]
    [InlineData("dominant", "9 -1 add", "C7b9")]
    [InlineData("dominant", "9 1 add|5 1 alter", "C7(#5,#9)")]
    [InlineData("major", "9 0 add", "Cadd9")]
    [InlineData("minor", "7 1 add", "Cm(maj7)")]
    [InlineData("dominant-13th", "11 0 subtract", "C13")]
    [InlineData("diminished", "7 1 add", "Cdim(maj7)")]
    [InlineData("suspended-fourth", "7 0 add|9 0 add|13 0 add", "C13sus4")]
    public void Degrees_are_read_as_the_standard_counts_them(string kind, string degrees, string symbol)
    {
        var elements = string.Concat(degrees.Split('|').Select(d => d.Split(' ')).Select(d => $"<degree><degree-value>{d[0]}</degree-value><degree-alter>{d[1]}</degree-alter><degree-type>{d[2]}</degree-type></degree>"));
        var (score, _) = Read($"<harmony><root><root-step>C</root-step></root><kind>{kind}</kind>{elements}</harmony>{Note("C", 4, 4)}");
        var read = ChordReader.Read(Assert.Single(score.Bars[0].Chords).Symbol!).Chord!;
        Assert.Equal(ChordReader.Read(symbol).Chord!.Tones.Where(t => t.Degree.Number != 11).Select(t => t.Name.ToString()).Order(), read.Tones.Where(t => t.Degree.Number != 11).Select(t => t.Name.ToString()).Order());
    }

    [Fact]
    public void A_part_that_transposes_comes_as_it_sounds()
    {
        // A part in B flat: written a major second higher than it sounds (common practice).
        var (score, _) = Read("<attributes><divisions>1</divisions><key><fifths>2</fifths><mode>major</mode></key><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>"
            + "<harmony><root><root-step>D</root-step></root><kind>major</kind></harmony>" + Note("F", 4, 4, 1));
        Assert.Equal("C major", score.Bars[0].Key!.ToString());
        Assert.Equal("C", score.Bars[0].Chords[0].Symbol);
        Assert.Equal("E4", score.Bars[0].Voices[0].Events[0].Notes[0].Pitch.ToString());
    }

    [Fact]
    public void One_note_of_a_chord_that_is_tied_goes_on_alone()
    {
        var text = Text(Whole(Note("C", 4, 2, 0, "<tie type=\"start\"/>") + Note("E", 4, 2).Replace("<note>", "<note><chord/>", StringComparison.Ordinal) + Note("C", 4, 2, 0, "<tie type=\"stop\"/>") + Note("G", 4, 2).Replace("<note>", "<note><chord/>", StringComparison.Ordinal)));
        var piece = Binder.Bind(SyntaxTree.Parse(text));
        Assert.Equal(["C4 0 to 1", "E4 0 to 1/2", "G4 1/2 to 1"], piece.Events.Where(e => e.Kind == EventKind.Struck).SelectMany(e => e.Notes.Select(n => $"{n.Pitch} {n.Onset} to {n.End}")).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Repeats_and_endings_are_played_as_the_score_says()
    {
        // 1 |: 2 | 3 (first and second time) :| 4 (third time) | 5
        var measures = string.Concat(Enumerable.Range(1, 5).Select(n => $"<measure number=\"{n}\">" + n switch
        {
            2 => "<barline location=\"left\"><repeat direction=\"forward\"/></barline>",
            3 => "<barline location=\"left\"><ending number=\"1, 2\" type=\"start\"/></barline>",
            4 => "<barline location=\"left\"><ending number=\"3\" type=\"start\"/></barline>",
            _ => "",
        } + Note("CDEFG"[n - 1].ToString(), 4, 4) + n switch
        {
            3 => "<barline location=\"right\"><ending number=\"1, 2\" type=\"stop\"/><repeat direction=\"backward\"/></barline>",
            4 => "<barline location=\"right\"><ending number=\"3\" type=\"discontinue\"/></barline>",
            _ => "",
        } + "</measure>"));
        var imported = ScoreReader.Read(Encoding.UTF8.GetBytes($"<score-partwise><part id=\"P1\">{measures}</part></score-partwise>"));
        var piece = Binder.Bind(SyntaxTree.Parse(LessonWriter.Write(imported.Score)));
        Assert.Equal("C D E D E D F G", string.Join(' ', piece.PlayOrder.Select(i => piece.Bars[i].Rows[0].Events[0].Notes[0].Pitch.Name)));
        Assert.Contains(imported.Losses, l => l.Message.Contains("written once for each", StringComparison.Ordinal));
    }

    [Fact]
    public void Strings_that_do_not_sound_the_pitch_are_left_open_and_told()
    {
        var (score, losses) = Read(Note("C", 4, 2, 0, "<notations><technical><string>2</string><fret>1</fret></technical></notations>") + Note("C", 4, 2, 0, "<notations><technical><string>2</string><fret>4</fret></technical></notations>"));
        Assert.Equal([2, null], score.Bars[0].Voices[0].Events.Select(e => e.Notes[0].String));
        Assert.Contains("does not sound C4", Assert.Single(losses).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Written_an_octave_up_without_saying_so_the_strings_are_believed()
    {
        var (score, losses) = Read(Note("C", 5, 4, 0, "<notations><technical><string>2</string><fret>1</fret></technical></notations>"));
        Assert.Equal("C4", score.Bars[0].Voices[0].Events[0].Notes[0].Pitch.ToString());
        Assert.Contains("1 octave above", Assert.Single(losses).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_several_parts_the_one_on_strings_is_taken_and_the_other_told()
    {
        var other = "<part id=\"A\"><measure number=\"1\">" + Note("G", 4, 4) + "</measure></part>";
        var guitar = "<part id=\"B\"><measure number=\"1\">" + Note("C", 4, 4, 0, "<notations><technical><string>2</string><fret>1</fret></technical></notations>") + "</measure></part>";
        var bytes = Encoding.UTF8.GetBytes($"<score-partwise><part-list><score-part id=\"A\"><part-name>Flute</part-name></score-part></part-list>{other}{guitar}</score-partwise>");
        Assert.Equal("C4", ScoreReader.Read(bytes).Score.Bars[0].Voices[0].Events[0].Notes[0].Pitch.ToString());
        Assert.Contains("part 1 (Flute)", Assert.Single(ScoreReader.Read(bytes).Losses).Message, StringComparison.Ordinal);
        Assert.Equal("G4", ScoreReader.Read(bytes, 1).Score.Bars[0].Voices[0].Events[0].Notes[0].Pitch.ToString());
        Assert.Throws<UnreadableScoreException>(() => ScoreReader.Read(bytes, 3));
    }

    private static string Note(string step, int octave, int duration, int alter = 0, string more = "") =>
        $"<note><pitch><step>{step}</step>{(alter == 0 ? "" : $"<alter>{alter}</alter>")}<octave>{octave}</octave></pitch><duration>{duration}</duration>{more}</note>";

    private static XElement Whole(string measure) => XElement.Parse($"<score-partwise><part id=\"P1\"><measure number=\"1\">{measure}</measure></part></score-partwise>");

    private static Imported Read(string measure) => ScoreReader.Read(Encoding.UTF8.GetBytes(Whole(measure).ToString()));

    private static string Text(XElement score) => LessonWriter.Write(ScoreReader.Read(Encoding.UTF8.GetBytes(score.ToString())).Score);
}
