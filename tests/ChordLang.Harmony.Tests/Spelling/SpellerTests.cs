// Spellings that every theory lesson teaches (common practice); the lines are ours.
using ChordLang.Harmony.Spelling;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Tests.Spelling;

public class SpellerTests
{
    // Common practice: tones of the key keep its letters; a leading tone rises a semitone to the next letter, a flattened tone falls to the letter
    // below; the raised fourth leads to the fifth, the sixth of a minor key is flat and its seventh is raised, and so on.
    [Theory]
    [InlineData("C major", "C4 E4 G4 F#4 G4 E4 D4 C#4 D4 C4")]
    [InlineData("C major", "E4 F4 G4 G#4 A4 G4 E4 D#4 E4 C4")]
    [InlineData("C major", "G4 A4 Bb4 A4 G4 F4 E4 F4 D4 C4")]
    [InlineData("A minor", "A4 C5 B4 G#4 A4 E4 F4 E4 D#4 E4 A4")]
    [InlineData("C minor", "C4 Eb4 D4 B3 C4 G4 Ab4 G4 F#4 G4 F4 Eb4 D4 C4")]
    [InlineData("E major", "E4 G#4 B4 A#4 B4 C#5 B4 A4 G#4 F#4 E4 D#4 E4")]
    [InlineData("Db major", "Db4 F4 Ab4 Gb4 F4 Eb4 Db4 C4 Db4 Bb3 Ab3")]
    [InlineData("Gb major", "Gb4 Bb4 Db5 Cb5 Bb4 Ab4 Gb4 F4 Gb4")]
    [InlineData("F# minor", "F#4 A4 C#5 B4 A4 G#4 E#4 F#4 C#4 F#4")]
    [InlineData("2 flats", "Bb3 D4 F4 Eb4 C4 A3 Bb3 G3 F3")]
    public void A_line_in_its_key(string key, string line) => Assert.Equal(line, Spelled(key, line));

    // Common practice: the line that climbs by semitones is written in sharps, the one that descends in flats.
    [Fact]
    public void Chromatic_lines_go_with_their_direction()
    {
        Assert.Equal("C4 C#4 D4 D#4 E4 F4 F#4 G4", Spelled("C major", "C4 C#4 D4 D#4 E4 F4 F#4 G4"));
        Assert.Equal("A4 Ab4 G4 F4 E4 Eb4 D4 Db4 C4", Spelled("C major", "A4 Ab4 G4 F4 E4 Eb4 D4 Db4 C4"));
    }

    // Common practice: a seventh lies seven letters above its root, a third three, a raised fifth five.
    [Theory]
    [InlineData("E minor", "B7", "D#4 A4 F#4 B4")]
    [InlineData("Gb major", "Cb7", "Eb4 Bbb4 Gb4")]
    [InlineData("F major", "Caug", "C4 E4 G#4")]
    [InlineData("Db major", "Gbm6", "Gb3 Bbb3 Db4 Eb4")]
    [InlineData("C major", "Db7", "F4 Cb5 Ab4")]
    [InlineData("D minor", "A7b9", "C#4 E4 G4 Bb4")]
    public void Chord_tones_are_spelled_from_the_root(string key, string symbol, string line) => Assert.Equal(line, Spelled(key, line, symbol));

    [Fact]
    public void A_chord_under_a_strange_root_does_not_spell_its_tones_strangely()
    {
        Assert.True(Key.TryParse("F major", out var key));
        var chord = RootInKey.Rewritten(ChordReader.Read("A#7").Chord!, key);
        Assert.Equal(["Bb", "D", "F", "Ab"], chord.Tones.Select(t => t.Name.ToString()));
        Assert.Same(chord, RootInKey.Rewritten(chord, key));
    }

    // Common practice: an augmented sixth opens to the octave; spelled as a minor seventh it would close.
    [Fact]
    public void An_augmented_sixth_opens()
    {
        var notes = new List<NoteToSpell>();
        string[] chords = ["C3 Eb4 G4 C5", "Ab2 C4 Eb4 F#4", "G2 B3 D4 G4", "C3 C4 Eb4 G4"];
        for (var i = 0; i < chords.Length; i++)
            notes.AddRange(chords[i].Split(' ').Select((n, voice) => Note(n, i / 4.0, voice, "C minor", null)));
        Assert.Equal(string.Join(' ', chords), Text(Speller.Spell(notes), notes));
    }

    [Fact]
    public void Without_a_key_the_notes_tell_it() =>
        Assert.Equal("Ab3 C4 Eb4 Db4 Bb3 G3 Ab3 F3 Eb3 Ab3", Spelled(null, "Ab3 C4 Eb4 Db4 Bb3 G3 Ab3 F3 Eb3 Ab3"));

    [Fact]
    public void A_passage_in_another_key_is_spelled_in_that_key()
    {
        const string Home = "C4 E4 G4 F4 D4 B3 C4 E4 A4 G4 F4 E4", Away = "Ab4 C5 Eb5 Db5 Bb4 G4 Ab4 Eb4 F4 Db4 Bb3 Eb4 Ab4 C5 Bb4 Db5 C5 Ab4";
        Assert.Equal($"{Home} {Away} {Home}", Spelled("C major", $"{Home} {Away} {Home}"));
    }

    // Property: moved by fifths within the usual signatures, a line moves letter by letter.
    [Theory]
    [InlineData("C4 E4 G4 F#4 G4 E4 D4 C#4 D4 C4")]
    [InlineData("G4 A4 Bb4 A4 G4 F4 E4 F4 D4 C4")]
    public void A_line_keeps_its_spelling_in_every_key(string line)
    {
        for (var by = -4; by <= 4; by++)
        {
            var moved = line.Split(' ').Select(n => Read(n)).Select(p => Pitch.Of(p.Midi + 7 * by - 12 * (int)Math.Round(7 * by / 12.0), PitchName.FromFifths(p.Name.Fifths + by)));
            var text = string.Join(' ', moved);
            Assert.Equal(text, Spelled(Key.Of(PitchName.FromFifths(by), Mode.Major).ToString(), text));
        }
    }

    [Fact]
    public void Every_answer_sounds_as_it_was_asked_and_says_how_sure_it_is()
    {
        var notes = Enumerable.Range(0, 128).Select(i => new NoteToSpell(i / 8.0, i * 37 % 128, i % 3, i % 5 == 0 ? null : Key.Signature(i % 15 - 7), null)).ToList();
        var spelled = Speller.Spell(notes);
        Assert.Equal(notes.Count, spelled.Count);
        for (var i = 0; i < notes.Count; i++)
        {
            Assert.Equal(notes[i].Midi, Pitch.Of(notes[i].Midi, spelled[i].Name).Midi);
            Assert.Equal(0, spelled[i].Over(spelled[i].Name));
            Assert.All(spelled[i].Scores, s => Assert.True(spelled[i].Over(s.Name) >= 0));
        }
        Assert.Empty(Speller.Spell([]));
    }

    [Theory]
    [InlineData("C major", null, "C4 F#4 G4", 1, SpellingReason.LeadsOn)]
    [InlineData("G major", null, "G4 F#4 E4", 1, SpellingReason.Key)]
    [InlineData("F major", "C7", "E4 Bb4 G4", 1, SpellingReason.ChordTone)]
    public void A_reason_is_given(string key, string? symbol, string line, int note, SpellingReason reason) =>
        Assert.Equal(reason, Speller.Spell(Asked(key, line, symbol))[note].Reason);

    private static string Spelled(string? key, string line, string? symbol = null)
    {
        var notes = Asked(key, line, symbol);
        return Text(Speller.Spell(notes), notes);
    }

    private static List<NoteToSpell> Asked(string? key, string line, string? symbol) => [.. line.Split(' ').Select((n, i) => Note(n, i / 8.0, 0, key, symbol))];

    private static NoteToSpell Note(string pitch, double onset, int voice, string? key, string? symbol) =>
        new(onset, Read(pitch).Midi, voice, KeyOf(key), symbol is null ? null : ChordReader.Read(symbol).Chord);

    private static Key? KeyOf(string? text) => text is not null && Key.TryParse(text, out var key) ? key : null;

    private static Pitch Read(string text) => Pitch.TryParse(text, out var pitch) ? pitch : throw new ArgumentException(text);

    private static string Text(IReadOnlyList<SpelledNote> spelled, List<NoteToSpell> notes) =>
        string.Join(' ', spelled.Select((s, i) => Pitch.Of(notes[i].Midi, s.Name)));
}
