// Asks for the spelling that chord and key call for, because the letter tells the reader what the note does.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Theory.Pitches;

namespace ChordLang.Checks.Spelling;

/// <summary>See its page.</summary>
public sealed class WrittenPitchSpelling : Check
{
    /// <inheritdoc/>
    public override string Code => "spelling-written-pitch";

    /// <inheritdoc/>
    public override string Title => "A pitch spelled against key and harmony";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Hint;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        var lines = new Melody(piece);
        foreach (var (e, note) in lines.WrittenNotes())
        {
            if (piece.Bars[e.Bar].Settings.Key is not { } key)
                continue;
            var chord = e.Is ?? piece.ChordAt(note.Onset)?.Chord;
            var written = note.Pitch.Name;
            var tone = chord?.Tones.FirstOrDefault(t => t.Name.PitchClass == written.PitchClass);
            var (wanted, why) = tone is not null
                ? (tone.Name, $"it is the {tone.Degree.Spoken()} of {chord!.Symbol}")
                : key.Holds(written.PitchClass) && (chord is null || chord.Spell(written.PitchClass) == key.Spell(written.PitchClass)) && !lines.Leans(e, note)
                ? (key.Spell(written.PitchClass), $"it belongs to {key}")
                : (written, "");
            if (wanted == written)
                continue;
            var pitch = Pitch.Of(note.Midi, wanted);
            var at = note.PitchSpan ?? note.Span;
            yield return new(Code, Severity, $"{note.Pitch} is written {pitch} here: {why}. It sounds the same.", at)
            {
                Fixes = [new($"Write {pitch}", true, [new(at, Respelled(piece, at, note, pitch))])],
                Strings = note.String is { } s ? [s] : [],
            };
        }
    }

    // The octave is left out where the writer left it out, unless the letter takes the note across it: B#3 is C4.
    private static string Respelled(Piece piece, Grammar.Text.Span at, Note note, Pitch pitch)
    {
        var text = piece.Tree.Source[at];
        var string_ = text.IndexOf('@') is var i && i >= 0 ? text[i..] : "";
        var octave = text.Length > string_.Length && char.IsAsciiDigit(text[text.Length - string_.Length - 1]);
        return (octave || pitch.Octave != note.Pitch.Octave ? pitch.ToString() : pitch.Name.ToString()) + string_;
    }
}
