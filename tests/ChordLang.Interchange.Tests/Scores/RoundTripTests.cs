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

    // What rings until the next event only came back as a ring to the end of the bar, and the next event cut it.
    [Theory]
    [InlineData("| Fm7   3 Bb7\n    1 1-x-1-1-1-x ring until 3   3 6-x-6-7-6-x\n")]
    [InlineData("| Fm7   3 Bb7\n    1 1-x-1-1-1-x ring until 3   2 x-x-x-x-x-1   3 6-x-6-7-6-x\n")]
    [InlineData("| Fm7   3 Bb7\n    1 1-x-1-1-1-x ring ring@6 until 3   3 3@6   4 rest\n")]
    [InlineData("| N.C.\n    top: 1 5@1 ring until 2trip   2trip 3@1\n    low: 1 0@5 ring   4 3@6\n")]
    [InlineData("| N.C.\n    1 0@6   4 3@1 ring until 2\n\n| N.C.\n    1 tied   2 5@1\n")]
    [InlineData("| N.C.\n    1 0@6 ring   3 3@1 ring until 1\n\n| N.C.\n    1 5@1\n")]
    [InlineData("meter 6/8\n\n| N.C.\n    1 0@5 ring until 4   4 3@5 ring\n")]
    public void What_rings_until_a_count_comes_back_so(string text)
    {
        var piece = Binder.Bind(SyntaxTree.Parse(text));
        Assert.Empty(CheckCatalogue.Run(piece).Select(f => f.Message));
        var imported = ScoreReader.Read(Encoding.UTF8.GetBytes(ScoreWriter.Write(piece, PlacedPiece.Of(piece, Hand.Medium))));
        var back = LessonWriter.Write(imported.Score);
        var read = Binder.Bind(SyntaxTree.Parse(back));
        Assert.Equal(Sounding(piece), Sounding(read));
        Assert.True(CheckCatalogue.Run(read) is [], back);

        static IEnumerable<string> Sounding(Piece p) => p.Events.Where(e => e.Kind == EventKind.Struck).SelectMany(e => e.Notes)
            .Select(n => $"{n.Onset} to {n.End} (wanted {n.WantedEnd}) {n.Pitch}@{n.String}").Order(StringComparer.Ordinal);
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
