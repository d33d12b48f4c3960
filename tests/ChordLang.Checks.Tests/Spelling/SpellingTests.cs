// The spelling that key and harmony call for, by worked examples of common practice; and what must stay silent.
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Tests.Catalogue;

namespace ChordLang.Checks.Tests.Spelling;

public sealed class SpellingTests
{
    // Common practice: a seventh lies seven letters above its root; the key's own letters come before all others.
    [Theory]
    [InlineData("key F major\n\n| Bbmaj7\n    1 A#3   3 D4\n", "spelling-written-pitch", "Bb3")]
    [InlineData("key E minor\n\n| B7\n    1 D#4   3 G##3\n", "spelling-written-pitch", "A3")]
    [InlineData("key Gb major\n\n| Cb7\n    1 Eb4   3 A3\n", "spelling-written-pitch", "Bbb3")]
    [InlineData("key Eb major\n\n| D#maj7\n    1 x-6-8-7-8-x\n", "spelling-chord-symbol", "Eb")]
    public void A_spelling_against_key_and_harmony_is_a_hint_with_a_safe_fix(string text, string code, string proposed)
    {
        var finding = Assert.Single(Checked.Run(text), f => f.Code == code);
        Assert.Equal(Severity.Hint, finding.Severity);
        Assert.Contains(proposed, finding.Message);
        Assert.True(finding.Fixes[0].Safe);
    }

    // Found in use once: the respelling of a wrong note was safe, was written, and the advice to play another went with it.
    [Fact]
    public void A_note_that_the_chord_blames_is_not_spelled_anew_by_itself()
    {
        const string Blamed = "key Eb major\n\n| Abmaj7\n    1 Ab4 2 Bb4 3 C5 4 B4\n| Abm6\n    1 Cb5\n";
        var found = Checked.Run(Blamed);
        Assert.Equal([("spelling-signature-slip", Severity.Warning, "B4"), ("spelling-written-pitch", Severity.Hint, "B4")],
            found.Select(f => (f.Code, f.Severity, Blamed.Substring(f.Span.Start, f.Span.Length))));
        Assert.DoesNotContain(found.SelectMany(f => f.Fixes), f => f.Safe);
        // Where the writer allows the note, only its letter is left to mend.
        var allowed = Assert.Single(Checked.Run(Blamed.Replace("Abmaj7\n", "Abmaj7\n    // allow spelling-signature-slip: the ear wants it\n", StringComparison.Ordinal)));
        Assert.Equal(("spelling-written-pitch", true), (allowed.Code, allowed.Fixes[0].Safe));
    }

    // The name doubts C#4 over Ebmaj7; it says nothing against the letter of another note of the same grip.
    [Theory]
    [InlineData("key Eb major\n\n| Ebmaj7\n    1 Eb3+G3+Bb3+C#4\n| Eb7\n    1 Db4 2 Db4 3 Db4 4 Db4\n", "C#4", false)]
    [InlineData("key Eb major\n\n| Ebmaj7\n    1 D#3+G3+Bb3+C#4\n", "D#3", true)]
    public void A_spelling_is_safe_only_where_no_name_doubts_the_note(string text, string written, bool safe)
    {
        var found = Checked.Run(text);
        var name = Assert.Single(found, f => f.Code.StartsWith("name-", StringComparison.Ordinal) && f.Severity <= Severity.Warning);
        Assert.Equal("C#4", text.Substring(name.Span.Start, name.Span.Length));
        var spelling = Assert.Single(found, f => f.Code == "spelling-written-pitch");
        Assert.Equal((written, safe), (text.Substring(spelling.Span.Start, spelling.Span.Length), spelling.Fixes[0].Safe));
    }

    // Common practice: a tone that leads on is spelled by where it leads; the fix is safe, so what sounds stays the same, Cb4 for B3 too.
    [Theory]
    [InlineData("key C major\n\n|\n    1 E4   2 Gb4   3 G4   4 C4\n|\n    1 D4   2 E4   3 D4   4 C4\n", "Gb4", "F#4")]
    [InlineData("key C minor\n\n|\n    1 C4   2 D#4   3 G4   4 Ab4\n|\n    1 G4   2 F4   3 Eb4   4 D4\n", "D#4", "Eb4")]
    [InlineData("key Gb major\n\n| Cb\n    1 Eb4   2 B3   3 Gb4   4 Eb4\n", "B3", "Cb4")]
    [InlineData("key F major\n\n| Bb7\n    1 A#3   2 E   3 Bb   4 D\n", "A#3", "Bb3")]
    public void A_strange_letter_is_found_by_what_stands_around_it(string text, string written, string proposed)
    {
        var finding = Assert.Single(Checked.Run(text), f => f.Code == "spelling-written-pitch");
        Assert.StartsWith($"{written} is written {proposed} here: ", finding.Message, StringComparison.Ordinal);
        var fix = Assert.Single(finding.Fixes);
        var source = Grammar.Text.SourceText.From(text);
        Assert.Equal(Midi(text), Midi(source.With(fix.Edits).Text));
        Assert.DoesNotContain(Checked.Run(source.With(fix.Edits).Text), f => f.Code.StartsWith("spelling-", StringComparison.Ordinal));
    }

    // Without a key the chords tell it, where they tell it plainly; where nothing tells it, nothing is said.
    [Fact]
    public void Without_a_key_the_chords_speak_and_without_chords_nobody_does()
    {
        const string Chart = "| Fmaj7 | Gm7 | C7 | Fmaj7 | Dm7 | Gm7 | C7\n| F6\n    1 A4   2 A#4   3 C5   4 F4\n";
        var finding = Assert.Single(Checked.Run(Chart), f => f.Code == "spelling-written-pitch");
        Assert.Contains("Bb4", finding.Message);
        Assert.Contains(Checked.Run("| F | A#7 | F | Gm7 | C7 | F | Gm7 C7 | F\n"), f => f.Code == "spelling-chord-symbol");
        Assert.DoesNotContain(Checked.Run("|\n    1 A4   2 A#4   3 C5   4 F4\n"), f => f.Code.StartsWith("spelling-", StringComparison.Ordinal));
    }

    // Common practice: players write the raised ninth as a minor third and the diminished seventh as a sixth, and both are right.
    [Theory]
    [InlineData("key E minor\n\n| B7#9\n    1 D5   2 C5   3 B4   4 A4\n")]
    [InlineData("key G major\n\n| C#dim7\n    1 A#4   2 G4   3 E4   4 C#4\n")]
    [InlineData("key C major\n\n| Dm7\n    1 D4   2 D#4   3 E4   4 F4\n| Am7\n    1 E4   2 Eb4   3 D4   4 C4\n")]
    public void Where_the_trade_knows_two_spellings_both_are_silent(string text) =>
        Assert.DoesNotContain(Checked.Run(text), f => f.Code == "spelling-written-pitch");

    // A false alarm once: a tone of the key under another spelling was called a slip against the key's signature.
    [Fact]
    public void A_tone_of_the_key_in_another_spelling_is_no_forgotten_accidental() =>
        Assert.DoesNotContain(Checked.Run("key F major\n\n| Fmaj7\n    1 C4   4 A#3@3\n"), f => f.Code == "spelling-signature-slip");

    // Common practice: chromatic approach, neighbour, passing note and blue note explain a foreign pitch.
    [Theory]
    [InlineData("key C major\n\n| Cmaj7\n    1 D#4   2 E4   3 G4\n")]
    [InlineData("key C major\n\n| Cmaj7\n    1 G4   2 F#4   3 G4\n")]
    [InlineData("key C major\n\n| Cmaj7\n    1 D4   2 D#4   3 E4\n")]
    [InlineData("key C major\n\n| C7\n    1 Eb4   3 G4\n")]
    [InlineData("\n| Cmaj7\n    1 F#4   3 C4\n")]
    public void What_a_step_or_the_blues_explains_is_silent(string text) =>
        Assert.DoesNotContain(Checked.Run(text), f => f.Code == "spelling-signature-slip");

    [Theory]
    [InlineData("key G major\n\n| Gmaj7\n    1 D4   2 F4   3 B4\n", "F#4", "sharp of the key forgotten")]
    [InlineData("key F major\n\n| Bbmaj7\n    1 D4   2 B4   3 F4\n", "Bb4", "flat of the key forgotten")]
    public void A_forgotten_accidental_of_the_key_is_a_warning(string text, string pitch, string question)
    {
        var finding = Assert.Single(Checked.Run(text), f => f.Code == "spelling-signature-slip");
        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains(pitch, finding.Message);
        Assert.Contains(question, finding.Message);
    }

    // Without a key the chords tell it, where they tell it plainly (a two-five-one and its tonic, common practice).
    [Fact]
    public void Without_a_key_the_chords_tell_what_was_forgotten()
    {
        const string Chart = "| Gmaj7 | Am7 | D7 | Gmaj7 | Em7 | Am7 | D7\n| Gmaj7\n    1 D4   2 F4   3 B4\n";
        var finding = Assert.Single(Checked.Run(Chart), f => f.Code == "spelling-signature-slip");
        Assert.Contains("F4 lies outside G major, the key that the chords tell, and outside Gmaj7", finding.Message);
        Assert.DoesNotContain(Checked.Run("| Gmaj7\n    1 D4   2 F4   3 B4\n"), f => f.Code == "spelling-signature-slip");
        Assert.DoesNotContain(Checked.Run("| Gmaj7 | Am7 | D7 | Gmaj7 | Em7 | Am7 | D7 | Gmaj7 | N.C.\n    1 D4   2 F4   3 B4\n"), f => f.Code == "spelling-signature-slip");
    }

    // False alarm run: with the key taken away no clean sample gets a finding about spelling.
    [Fact]
    public void Clean_samples_stay_clean_without_their_key()
    {
        foreach (var path in ChordLang.Testing.Repository.Samples("valid"))
        {
            var text = string.Join('\n', ChordLang.Testing.Repository.Text(path).Split('\n').Where(l => !l.TrimStart().StartsWith("key", StringComparison.Ordinal)));
            Assert.DoesNotContain(Checked.Run(text), f => f.Code.StartsWith("spelling-", StringComparison.Ordinal));
        }
    }

    private static IEnumerable<int> Midi(string text) =>
        [.. Arrangement.Binding.Binder.Bind(Grammar.Syntax.SyntaxTree.Parse(text)).Events.SelectMany(e => e.Notes).Select(n => n.Midi)];
}
