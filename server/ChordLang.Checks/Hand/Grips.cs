// Collects what the left hand has to hold at one time, from all rows.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Checks.Hand;

/// <summary>Notes struck together, as one grip.</summary>
/// <param name="Bar">The bar.</param>
/// <param name="Event">The event with the most of the notes; findings speak of it.</param>
/// <param name="Notes">The placed notes, lowest first.</param>
/// <param name="Voicing">The grip.</param>
internal sealed record HeldGrip(Bar Bar, Event Event, ImmutableArray<Heard> Notes, Voicing Voicing)
{
    /// <summary>Every grip of a piece with two or more notes; one that is only repeated is left out.</summary>
    public static IEnumerable<HeldGrip> Of(Piece piece)
    {
        foreach (var moment in piece.Moments)
        {
            if (moment.Events.All(e => e.Repeated))
                continue;
            var bar = piece.Bars[moment.Bar];
            var strings = bar.Settings.Neck.Tuning.Strings;
            var notes = moment.Struck.Where(h => h.Note is { String: { } s, Fret: not null, Harmonic: false } && s >= 1 && s <= strings)
                .GroupBy(h => h.Note.String).Select(g => g.First()).OrderBy(h => h.Note.Midi).ToImmutableArray();
            if (notes.Length < 2)
                continue;
            var slots = new int?[strings];
            foreach (var (note, _) in notes)
                slots[^note.String!.Value] = note.Fret;
            yield return new(bar, moment.Events.MaxBy(e => e.Notes.Length)!, notes, new([.. slots]));
        }
    }
}
