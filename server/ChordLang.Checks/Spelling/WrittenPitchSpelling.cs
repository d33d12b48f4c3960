// Asks for the spelling that chord and key call for, because the letter tells the reader what the note does.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Spelling;

/// <summary>See its page.</summary>
public sealed class WrittenPitchSpelling : Check
{
    /// <summary>How sure a key must be that is found and not written, 0 to 1.</summary>
    internal const double SureOfKey = 0.9;

    // By how much, in natural-log units, the better spelling must win: about thirty to one, because a writer has reasons that no table knows.
    private const double Sure = 3.5;

    /// <inheritdoc/>
    public override string Code => "spelling-written-pitch";

    /// <inheritdoc/>
    public override string Title => "A pitch spelled against key and harmony";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Hint;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        foreach (var written in SpelledPiece.Of(piece, true, SureOfKey))
        {
            var (note, pitch) = (written.Note, written.Proposed);
            if (written.Key is null || written.Spelled.Over(note.Pitch.Name) < Sure)
                continue;
            yield return new(Code, Severity, $"{note.Pitch} is written {pitch} here: {written.Why}. It sounds the same.", note.PitchSpan ?? note.Span)
            {
                Fixes = [new($"Write {pitch}", true, Respelling.Edits(piece, [(written.Event, note, pitch)]))],
                Strings = note.String is { } s ? [s] : [],
            };
        }
    }
}
