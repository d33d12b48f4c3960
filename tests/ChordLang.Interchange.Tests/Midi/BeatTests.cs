// What beat a tempo counts: the same on every way out and back.
using System.Globalization;
using System.Text;
using System.Xml.Linq;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Placing;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Midi;
using ChordLang.Interchange.MusicXml;

namespace ChordLang.Interchange.Tests.Midi;

/// <summary>Common practice: the beat is the lower number of the meter, in compound meters three of them. The sound of MusicXML and the tempo of MIDI count quarters.</summary>
public sealed class BeatTests
{
    [Theory]
    [InlineData("4/4", 90, 90, "quarter", false)]
    [InlineData("2/2", 90, 180, "half", false)]
    [InlineData("3/8", 90, 45, "eighth", false)]
    [InlineData("7/8", 168, 84, "eighth", false)]
    [InlineData("6/8", 60, 90, "quarter", true)]
    [InlineData("12/16", 60, 45, "eighth", true)]
    public void A_tempo_counts_beats_and_comes_back(string meter, int tempo, int quarters, string unit, bool dotted)
    {
        var piece = Binder.Bind(SyntaxTree.Parse($"meter {meter}\ntempo {tempo}\n\n| C\n    1 C4\n"));
        var score = ScoreWriter.Write(piece, PlacedPiece.Of(piece, piece.Settings.Hand));
        var mark = XDocument.Parse(score).Descendants("metronome").Single();
        Assert.Equal((unit, dotted), (mark.Element("beat-unit")!.Value, mark.Element("beat-unit-dot") is not null));
        Assert.Equal(quarters, double.Parse(XDocument.Parse(score).Descendants("sound").Single().Attribute("tempo")!.Value, CultureInfo.InvariantCulture));
        Assert.Equal(tempo.ToString(CultureInfo.InvariantCulture), ScoreReader.Read(Encoding.UTF8.GetBytes(score)).Score.Bars[0].Tempo);
        var midi = MidiWriter.Write(piece);
        var at = midi.AsSpan().IndexOf<byte>([0xFF, 0x51, 3]) + 3; // the tempo event of the MIDI file format: microseconds a quarter
        Assert.Equal(60e6 / quarters, (midi[at] << 16) + (midi[at + 1] << 8) + midi[at + 2], 1d);
        Assert.Equal(tempo.ToString(CultureInfo.InvariantCulture), MidiReader.Read(midi).Score.Bars[0].Tempo);
    }
}
