// Files from strangers: a clear sentence, no crash, and no more memory than the bounds say.
using ChordLang.Grammar.Text;
using ChordLang.Interchange.Midi;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.Scores;
using ChordLang.Interchange.TabText;

namespace ChordLang.Interchange.Tests.Hostile;

public sealed class HostileTests
{
    // The largest bound is a million elements; a bomb that goes off takes gigabytes.
    private const long MostMemory = 700L * 1024 * 1024;

    public static TheoryData<string> Names => [.. HostileFiles.All.Select(f => f.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void It_is_refused_in_a_sentence(string name)
    {
        var (_, bytes, says) = HostileFiles.All.Single(f => f.Name == name);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var refused = Assert.Throws<UnreadableScoreException>(() => Read(bytes));
        Assert.Contains(says, refused.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("root:", refused.Message, StringComparison.Ordinal);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, MostMemory);
    }

    [Fact]
    public void A_document_type_without_entities_is_read()
    {
        var score = ScoreReader.Read(HostileFiles.Text("<?xml version=\"1.0\"?><!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" \"http://www.musicxml.org/dtds/partwise.dtd\">"
            + "<score-partwise><part id=\"P1\"><measure number=\"1\"><note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note></measure></part></score-partwise>"));
        Assert.Single(score.Score.Bars);
    }

    private static void Read(byte[] bytes)
    {
        if (MidiReader.Is(bytes))
            MidiReader.Read(bytes);
        else if (CompressedScore.Is(bytes) || bytes.Length > 0 && bytes[0] == '<')
            ScoreReader.Read(bytes);
        else
            TabReader.Read(SourceText.From(bytes).Text);
    }
}
