// What comes back of every sample from another format: notes by onset, end, pitch and place, chords, form and words.
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Checks.Catalogue;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.Scores;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.Scores;

public sealed class RoundTripTests
{
    public static TheoryData<string> Samples => [.. Repository.Samples("valid").Where(s => !Sample.Bind(s).Bars.IsEmpty)];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Notes_come_back_from_MusicXml(string sample)
    {
        var (piece, back, _, text) = ThroughMusicXml(sample);
        Assert.True(Carried.Notes(piece).SequenceEqual(Carried.Notes(back)), Difference(Carried.Notes(piece), Carried.Notes(back)) + text);
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Chords_form_and_settings_come_back_from_MusicXml(string sample)
    {
        var (piece, back, losses, text) = ThroughMusicXml(sample);
        Assert.Equal(Carried.Chords(piece), Carried.Chords(back));
        Assert.Equal(Carried.Settings(piece), Carried.Settings(back));
        if (!piece.Sections.Any(s => s.Again))
            Assert.Equal(piece.PlayOrder.AsEnumerable(), back.PlayOrder.AsEnumerable());
        Assert.Empty(losses);
        Assert.Equal(text, Formatter.Formatted(SourceText.From(text)).Text);
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void What_comes_back_checks_as_the_sample_does(string sample)
    {
        var (piece, back, _, text) = ThroughMusicXml(sample);
        // A score names a string for every note, so the sample is checked with the same strings written.
        var known = CheckCatalogue.Run(Sample.Bind(piece.Tree.Source.With(PlacedPiece.Of(piece, Hand.Medium).Edits()))).Select(f => (f.Bar, f.Code)).ToHashSet();
        var findings = CheckCatalogue.Run(back).Where(f => f.Severity <= Severity.Warning && !known.Contains((f.Bar, f.Code))).ToList();
        Assert.True(findings.Count == 0, string.Join('\n', findings.Select(f => $"bar {f.Bar} {f.Code} {f.Message}")) + "\n" + text);
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Plain_and_compressed_scores_are_one(string sample)
    {
        var piece = Sample.Bind(sample);
        var score = ScoreWriter.Write(piece, PlacedPiece.Of(piece, Hand.Medium));
        var packed = CompressedScore.Pack(score);
        Assert.Equal(score, Encoding.UTF8.GetString(CompressedScore.Unpack(packed)));
        Assert.Equal(packed, CompressedScore.Pack(score));
    }

    private static (Piece Piece, Piece Back, IReadOnlyList<Loss> Losses, string Text) ThroughMusicXml(string sample)
    {
        var piece = Sample.Bind(sample);
        var imported = ScoreReader.Read(Encoding.UTF8.GetBytes(ScoreWriter.Write(piece, PlacedPiece.Of(piece, Hand.Medium))));
        var text = LessonWriter.Write(imported.Score);
        return (piece, Binder.Bind(SyntaxTree.Parse(text)), imported.Losses, text);
    }

    private static string Difference(IEnumerable<string> wanted, IEnumerable<string> got) =>
        $"missing:\n{string.Join('\n', wanted.Except(got).Take(8))}\ninvented:\n{string.Join('\n', got.Except(wanted).Take(8))}\n";
}
