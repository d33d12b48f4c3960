// Catches the accidental that was forgotten: a pitch that neither key nor chord nor any line explains, while its letter in the key would fit.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Checks.Spelling;

/// <summary>See its page.</summary>
public sealed class SignatureSlip : Check
{
    // Lowered third, fifth and seventh above the tonic (common practice of the blues).
    private static readonly int[] Blue = [3, 6, 10];

    /// <inheritdoc/>
    public override string Code => "spelling-signature-slip";

    /// <inheritdoc/>
    public override string Title => "A sharp or flat of the key was forgotten";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        var lines = new Melody(piece);
        var signatures = new Dictionary<Note, int>(ReferenceEqualityComparer.Instance);
        foreach (var written in SpelledPiece.Of(piece, true))
            signatures.TryAdd(written.Note, written.Spelled.Signature);
        var keys = SpelledPiece.Keys(piece, WrittenPitchSpelling.SureOfKey);
        var given = piece.Bars.Any(b => b.Settings.Key is not null);
        foreach (var (e, note) in lines.WrittenNotes())
        {
            // A whole voicing answers to its name, not to the key.
            if (keys[e.Bar] is not { } key || e.Notes.Length > 2)
                continue;
            var chord = e.Is ?? piece.ChordAt(note.Onset)?.Chord;
            var name = note.Pitch.Name;
            var sibling = Sibling(name, key);
            // A# in F major sounds as Bb, a tone of the key: that is spelling, not a slip.
            if (sibling == name || key.Holds(note.Midi) || chord is not null && chord.RoleOf(note.Midi) != ToneRole.Contradiction
                || chord is not null && chord.RoleOf(sibling.PitchClass) == ToneRole.Contradiction || chord is null && piece.Bars[e.Bar].Chords.Any(c => c.Symbol is not null))
                continue;
            if (lines.Leans(e, note) || lines.Passes(e, note) || IsBlue(name, key, chord) || signatures.TryGetValue(note, out var fifths) && fifths != key.Fifths && Key.Signature(fifths).Holds(note.Midi))
                continue;
            // A key that only the chords tell is no witness where no chord stands.
            if (chord is null && !given || chord is null && IsMeant(piece, e, note, sibling))
                continue;
            var pitch = new Pitch(sibling, note.Pitch.Octave);
            var at = note.PitchSpan ?? note.Span;
            yield return new(Code, Severity, $"{note.Pitch} lies outside {key}{(given ? "" : ", the key that the chords tell,")}{(chord is null ? "" : $" and outside {chord.Symbol}")}, and no step in the line explains it. "
                + $"{pitch} would fit: {Question(sibling)}", at)
            {
                Fixes = Rewritten(piece, e, note, pitch), Strings = note.String is { } s ? [s] : [],
            };
        }
    }

    // Where no chord speaks, only the notes near by can: a pitch that comes again, or whose sibling does not come at all, is meant.
    private static bool IsMeant(Piece piece, Event at, Note note, PitchName sibling)
    {
        var near = piece.Bars[Math.Max(0, at.Bar - 1)..Math.Min(piece.Bars.Length, at.Bar + 2)].SelectMany(b => b.Rows).SelectMany(r => r.Events)
            .Where(e => e.Kind == EventKind.Struck).SelectMany(e => e.Notes).ToList();
        return near.Count(n => (n.Midi - note.Midi) % 12 == 0) > 1 || !near.Any(n => (n.Midi - sibling.PitchClass) % 12 == 0);
    }

    private static System.Collections.Immutable.ImmutableArray<Fix> Rewritten(Piece piece, Event e, Note note, Pitch pitch)
    {
        var tone = new Names.Tone(note, e, true);
        var by = pitch.Midi - note.Midi;
        if (Names.Repairs.Moved(tone, by, piece.Bars[e.Bar].Settings.Neck) is not { } change)
            return [];
        var edits = Names.Rewriting.Of(piece, n => n == pitch.Midi ? pitch.Name : PitchName.Nearest(n, 2), e, [change]);
        return edits.IsEmpty ? [] : [new($"Play {pitch}", false, edits)];
    }

    private static string Question(PitchName sibling) => sibling.Alteration switch
    {
        0 => "was the natural meant?",
        > 0 => "was the sharp of the key forgotten?",
        _ => "was the flat of the key forgotten?",
    };

    private static PitchName Sibling(PitchName name, Key key)
    {
        for (var k = key.Fifths - 1; k <= key.Fifths + 5; k++)
            if (PitchName.FromFifths(k) is var own && own.Letter == name.Letter)
                return own;
        return name;
    }

    private static bool IsBlue(PitchName name, Key key, Chord? chord) =>
        key.Tonic is { } tonic && Blue.Contains((name.PitchClass - tonic.PitchClass + 12) % 12) && (chord is null || chord.IsDominant());
}
