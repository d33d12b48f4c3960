// Completion, by short texts with a cursor: what is proposed first, with what words beside it, and what is not.
using System.Collections.Immutable;
using ChordLang.Features.Choices;
using ChordLang.Features.Completions;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Testing;
using ChordLang.Theory.Chords;

namespace ChordLang.Features.Tests;

public sealed class CompletionTests
{
    private const string Head = "key C major\nshape low-drop = 1-x-1-1-1-x\nsection A\n";

    [Theory]
    // Tones by common practice of chord symbols.
    [InlineData("| A¦", "Am7b5", "A C Eb G")]
    [InlineData("| Bb¦", "Bbmaj7", "Bb D F A")]
    [InlineData("| C7¦", "C7#9", "C E G Bb D#")]
    [InlineData("| C7(¦", "b9", "with the flat ninth")]
    [InlineData("| C7(b9,¦", "#11", "with the sharp eleventh")]
    [InlineData("| C7/¦", "E", "the major third in the bass")]
    // The seventh chords of C major: common practice.
    [InlineData("| ¦", "Dm7", "of C major: D F A C")]
    [InlineData("| C | ¦", "%", "the bar before again")]
    [InlineData("| Cmaj7 ¦", "3", "say \"three\"")]
    // Inside a row.
    [InlineData("| Cmaj7\n    1 E4   ¦", "2&", "say \"two and\"")]
    [InlineData("| Cmaj7\n    1 E4   2¦", "2let", "say \"two let\"")]
    [InlineData("| Cmaj7\n    1 ¦", "rest", "silence")]
    [InlineData("| Cmaj7\n    1 ¦", "low-drop", "1-x-1-1-1-x")]
    [InlineData("| Cmaj7\n    1 C4 2 ¦", "E4", "the major third of Cmaj7")]
    [InlineData("| Cmaj7\n    1 E4 ¦", "ring", "Let it ring to the end of the bar.")]
    [InlineData("| Cmaj7\n    1 E4 ring ¦", "until", "until a count comes round")]
    [InlineData("| Cmaj7\n    1 E4 ring until ¦", "3", "say \"three\"")]
    [InlineData("| Cmaj7\n    1 E4 finger ¦", "T", "the thumb")]
    [InlineData("| Cmaj7\n    1 low-drop ¦", "at", "its lowest fretted note at this fret")]
    [InlineData("| Cmaj7\n    top: 1 E4\n| C\n    ¦", "top:", "a voice of this piece")]
    [InlineData("| Cmaj7\n    1 E4@¦", "2", "string 2, fret 5")]
    [InlineData("| Cmaj7\n    1 C4@3+E4@¦", "1", "the open string 1")]
    // Lines of other kinds.
    [InlineData("¦", "title", "the name of the piece")]
    [InlineData("key ¦", "Eb major", "3 flats")]
    [InlineData("key D ¦", "dorian", "no sharps or flats")]
    [InlineData("meter ¦", "6/8", null)]
    [InlineData("strings ¦", "E2 A2 D3 G3 B3 E4", "standard")]
    [InlineData("| C\nsection ¦", "A again", "1 bar as they stand above")]
    [InlineData("expect ¦", "no fret above 12", null)]
    [InlineData("expect only shapes ¦", "low-drop", null)]
    [InlineData("// allow ¦\n| Cmaj7\n    1 x-3-5-4-6-x", "name-fret-slip:", null)]
    public void A_place_gets_its_proposals(string marked, string text, string? detail)
    {
        var proposal = Assert.Single(Of(Head + marked + "\n"), p => p.Text == text);
        if (detail is not null)
            Assert.Contains(detail, proposal.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("| Cmaj7 3 A7 ¦", "3")]
    [InlineData("| Cmaj7\n    1 E4  3 G4  ¦", "2")]
    [InlineData("| Cmaj7\n    1 E4  ¦  2 G4", "3")]
    [InlineData("| Cmaj7\n    1 E4 ring ¦", "Cmaj7")]
    [InlineData("> Words ¦", "ring")]
    [InlineData("section ¦", "A")]
    public void What_does_not_fit_is_not_proposed(string marked, string text) => Assert.DoesNotContain(Of(Head + marked + "\n"), p => p.Text == text);

    [Fact]
    public void Voicings_hold_the_chord_and_the_nearest_comes_first()
    {
        // Dm7 after x-3-5-4-5-x: from C E G B the voices C E(3) … the nearest drop-2 grip keeps or moves each voice by a step (common practice of voice leading).
        var (text, cursor) = Snippet.AtCursor("| Cmaj7 3 Dm7\n    1 x-3-5-4-5-x  3 ¦\n");
        var lesson = new Lesson(SyntaxTree.Parse(text));
        var voicings = CompletionsAt.Of(lesson, cursor, new()).Where(p => p.Kind == ProposalKind.Voicing).ToList();
        Assert.Equal(new EditorChoices().Voicings, voicings.Count);
        var (chord, open) = (ChordReader.Read("Dm7").Chord!, new[] { 40, 45, 50, 55, 59, 64 });
        foreach (var v in voicings)
        {
            // Open strings of standard tuning as MIDI numbers, E2 = 40.
            var midi = v.Text.Split('-').Select((slot, i) => slot == "x" ? -1 : open[i] + int.Parse(slot, System.Globalization.CultureInfo.InvariantCulture)).Where(m => m >= 0).ToList();
            Assert.Empty(chord.Missing(midi));
            Assert.All(midi, m => Assert.NotEqual(ToneRole.Contradiction, chord.RoleOf(m)));
        }
        Assert.Contains("top note", voicings[0].Detail, StringComparison.Ordinal);
        int Top(string grip) => grip.Split('-').Select((slot, i) => slot == "x" ? 0 : open[i] + int.Parse(slot, System.Globalization.CultureInfo.InvariantCulture)).Max();
        // E4, 64, lies on top of the grip before.
        Assert.InRange(Math.Abs(Top(voicings[0].Text) - 64), 0, 2);
    }

    [Fact]
    public void No_voicings_are_proposed_where_none_are_wanted()
    {
        var (text, cursor) = Snippet.AtCursor("| Cmaj7\n    1 ¦\n");
        Assert.DoesNotContain(CompletionsAt.Of(new(SyntaxTree.Parse(text)), cursor, new() { Voicings = 0 }), p => p.Kind == ProposalKind.Voicing);
    }

    [Fact]
    public void A_shape_is_proposed_where_it_sounds_the_chord()
    {
        // 1-x-1-1-1-x sounds F Eb Ab C, an Fm7; at fret 8 it is Cm7, equal temperament.
        var (text, cursor) = Snippet.AtCursor("shape low-drop = 1-x-1-1-1-x\n| Cm7\n    1 ¦\n");
        Assert.Contains(CompletionsAt.Of(new(SyntaxTree.Parse(text)), cursor, new()), p => p.Text == "low-drop at 8" && p.Detail!.StartsWith("the shape as Cm7", StringComparison.Ordinal));
    }

    [Fact]
    public void The_library_gives_files_and_tags()
    {
        Assert.Contains(Of("use \"¦\n", new Shelf()), p => p is { Text: "\"shapes.chl\"" });
        Assert.Contains(Of("tags ¦\n", new Shelf()), p => p.Text == "ballad");
    }

    [Theory]
    [InlineData(ProposalKind.Chord, "Dm7", "Dm7 has the tones D, the root")]
    [InlineData(ProposalKind.Voicing, "x-3-5-4-5-x", "x-3-5-4-5-x is the grip")]
    [InlineData(ProposalKind.Shape, "low-drop at 3", "low-drop is the grip")]
    [InlineData(ProposalKind.Check, "name-fret-slip:", "")]
    public void The_one_that_is_looked_at_is_explained(ProposalKind kind, string text, string first) =>
        Assert.StartsWith(first, ProposalText.Of(new(SyntaxTree.Parse(Head + "| Cmaj7\n")), kind, text, Head.Length)!.First, StringComparison.Ordinal);

    [Theory]
    [InlineData("key ¦", "key TONIC MODE", "TONIC")]
    [InlineData("key C ¦", "key TONIC MODE", "MODE")]
    [InlineData("reach 5 to ¦", "reach FROM to LAST", "LAST")]
    [InlineData("shape a = ¦", "shape NAME = FRETS fingers FINGERS", "FRETS")]
    [InlineData("| C7(b9,¦", "C7(DEGREE1,DEGREE2)", "DEGREE2")]
    public void The_form_of_what_is_typed_is_told(string marked, string form, string active)
    {
        var (text, cursor) = Snippet.AtCursor(marked + "\n");
        var signature = SignatureAt.Of(new(SyntaxTree.Parse(text)), cursor)!;
        Assert.Equal(form, signature.Form);
        Assert.Equal(active, signature.Form[signature.Parts[signature.Active].Start..signature.Parts[signature.Active].End]);
    }

    [Theory]
    [InlineData("| C7¦")]
    [InlineData("    1 C4 ¦")]
    public void What_takes_no_parts_has_no_form(string marked)
    {
        var (text, cursor) = Snippet.AtCursor(marked + "\n");
        Assert.Null(SignatureAt.Of(new(SyntaxTree.Parse(text)), cursor));
    }

    // Every proposal, written where it is proposed, must leave no line that cannot be read.
    [Theory]
    [InlineData("| ¦")]
    [InlineData("| C7¦")]
    [InlineData("| C7(¦)")]
    [InlineData("| Cmaj7\n    1 ¦")]
    [InlineData("| Cmaj7\n    1 E4  ¦ 3 G4")]
    [InlineData("key ¦")]
    [InlineData("strings ¦")]
    [InlineData("tempo ¦")]
    [InlineData("expect ¦")]
    [InlineData("scale-length ¦")]
    public void What_is_proposed_can_be_read(string marked)
    {
        var (text, cursor) = Snippet.AtCursor(Head + marked + "\n");
        var lesson = new Lesson(SyntaxTree.Parse(text));
        var proposals = CompletionsAt.Of(lesson, cursor, new()).Where(p => p.Kind is ProposalKind.Chord or ProposalKind.Part or ProposalKind.Voicing or ProposalKind.Shape or ProposalKind.Pitch or ProposalKind.Value or ProposalKind.Word).ToList();
        Assert.NotEmpty(proposals);
        foreach (var p in proposals.Where(p => p.Text is not ("=" or "rubato around 60" or "from 4" or "at")))
        {
            var after = new Lesson(SyntaxTree.Parse(lesson.Text.With([new(p.Replaces, p.Text)])));
            var line = after.Tree.Lines[lesson.Text.LineAt(cursor)];
            Assert.True(line.Findings.IsEmpty || p.Kind == ProposalKind.Part && line.Findings.Length == 0, $"{p.Text}: {line.Text}: {string.Join(' ', line.Findings.Select(f => f.Message))}");
            Assert.All(after.Piece.Bars.SelectMany(b => b.Chords), c => Assert.True(c.Symbol is null || c.Chord is not null, $"{p.Text} is no chord"));
        }
    }

    private static ImmutableArray<Proposal> Of(string marked, ILibraryNames? library = null)
    {
        var (text, cursor) = Snippet.AtCursor(marked);
        return CompletionsAt.Of(new(SyntaxTree.Parse(text)), cursor, new(), library);
    }

    private sealed class Shelf : ILibraryNames
    {
        public IEnumerable<string> Files => ["shapes.chl"];

        public IEnumerable<string> Tags => ["ballad"];
    }
}
