// Proposes the same pitch on another string, wherever that makes a grip one that can be held.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Names;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Hand;

/// <summary>Moves single notes to other strings.</summary>
internal static class OtherStrings
{
    // A note rings to the end of the next bar at most, but for ties.
    private const int Most = 2, BarsBeside = 2;

    /// <summary>The best ways to bring a grip into the hand by moving one of its notes to a string that it leaves free, best first.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="grip">The grip.</param>
    /// <param name="cost">What the changed grip costs the hand, or null where it does not help.</param>
    public static ImmutableArray<Fix> For(Piece piece, HeldGrip grip, Func<Voicing, double?> cost)
    {
        var fixes = new List<(double Cost, Fix Fix)>();
        foreach (var (note, source) in grip.Notes)
            for (var s = 1; s <= grip.Neck.Tuning.Strings; s++)
                if (grip.Voicing[s] is null && note.Fret > 0 && grip.Neck.FretOf(s, note.Midi) is { } fret
                    && cost(Moved(grip.Voicing, note.String!.Value, s, fret)) is { } price && Move(piece, source, note, s, fret) is { } fix)
                    fixes.Add((price, fix));
        return [.. fixes.OrderBy(f => f.Cost).Take(Most).Select(f => f.Fix)];
    }

    /// <summary>The fix that plays a note of an event elsewhere, or null where the text cannot say it so simply.</summary>
    public static Fix? Move(Piece piece, Event source, Note note, int s, int fret)
    {
        if (source.Repeated || source.Has(MarkKind.Fingers) || source.Marks.Any(m => m.String is not null) || Beside(piece, source, note).Any(e => e.Notes.Any(n => n.String is null)))
            return null;
        var edits = Rewriting.Of(piece, _ => note.Pitch.Name, source, [new(new(note, source, true), s, fret, note.Midi)]);
        return edits.IsEmpty ? null : new(fret == 0 ? $"Play {note.Pitch} on the open string {s}" : $"Play {note.Pitch} at fret {fret} of string {s}", Alone(piece, source, note, s), edits);
    }

    // True where nothing else sounds on either string meanwhile: else one note would cut the other, or no longer do so. A sound that is played again moves with it.
    private static bool Alone(Piece piece, Event source, Note note, int s) =>
        !Beside(piece, source, note).Any(e => !ReferenceEquals(e, source) && e.Notes.Any(n => (n.String == s || n.String == note.String) && Together(n, note)))
        && !piece.Events.Any(e => e.Repeated && e.Notes.Any(n => n.Span == note.Span)); // looks through the whole piece, so it comes last

    // What sounds while a note does, itself included. Where a string is still to be found for some of it, nobody knows which strings are free.
    private static IEnumerable<Event> Beside(Piece piece, Event source, Note note)
    {
        for (var bar = Math.Max(0, source.Bar - BarsBeside); bar <= source.Bar + BarsBeside && bar < piece.Bars.Length; bar++)
            foreach (var e in piece.Bars[bar].Rows.SelectMany(r => r.Events))
                if (ReferenceEquals(e, source) || e.Notes.Any(n => Together(n, note)))
                    yield return e;
    }

    private static bool Together(Note one, Note other) => one.Onset < other.WantedEnd && one.WantedEnd > other.Onset;

    /// <summary>The voicing with one note on another string.</summary>
    public static Voicing Moved(Voicing voicing, int from, int to, int fret)
    {
        var slots = voicing.Slots.ToArray();
        slots[^from] = null;
        slots[^to] = fret;
        return new([.. slots]);
    }
}
