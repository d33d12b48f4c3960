// Proposes what lets a note ring: another string for it or for what cuts it, or an honest end.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Hand;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Checks.Ringing;

/// <summary>Repairs of ringing notes.</summary>
internal static class RingFixes
{
    private const int Most = 2;

    /// <summary>All repairs that work, best first: the ringing note elsewhere, the note that cuts it elsewhere, an end where it is cut.</summary>
    public static ImmutableArray<Fix> For(Piece piece, Hold hold, IEnumerable<Hold> cutters, Rational cut) =>
    [
        .. Elsewhere(piece, hold, hold, hold.Note.Onset, hold.Note.WantedEnd).Take(Most),
        .. cutters.SelectMany(c => Elsewhere(piece, hold, c, c.Note.Onset, Rational.Max(hold.Note.WantedEnd, c.Note.WantedEnd))).Take(Most),
        .. Shorter(piece, [hold], cut),
    ];

    /// <summary>The repair of several notes of one event that are cut at once: an end where they are cut. To put one of them elsewhere would not mend the others.</summary>
    public static ImmutableArray<Fix> ForAll(Piece piece, IReadOnlyList<Hold> holds, Rational cut) => [.. Shorter(piece, holds, cut)];

    // A string does for a note where it is free as long as the note sounds, and the hand can hold all that sounds until both notes are over.
    private static IEnumerable<Fix> Elsewhere(Piece piece, Hold hold, Hold moved, Rational from, Rational to)
    {
        var (neck, note) = (piece.Bars[moved.Source.Bar].Settings.Neck, moved.Note);
        if (note.Dead || note.Harmonic)
            yield break;
        for (var s = 1; s <= neck.Tuning.Strings; s++)
            if (s != moved.String && s != hold.String && neck.FretOf(s, note.Midi) is { } fret && Holds.Of(piece).Free(s, from, Rational.Max(note.WantedEnd, note.End), note)
                && Holdable(piece, hold, moved, (note, s, fret), from, to) && OtherStrings.Move(piece, moved.Source, note, s, fret) is { } fix)
                yield return fix with { Safe = false }; // the pitches stay, but what rings is heard
    }

    private static bool Holdable(Piece piece, Hold hold, Hold other, (Note Note, int String, int Fret) moved, Rational from, Rational to)
    {
        Hold[] both = ReferenceEquals(hold, other) ? [hold] : [hold, other];
        var (grips, holds) = (HeldGrips.Of(piece), Holds.Of(piece));
        var began = piece.Moments.ElementAtOrDefault(FirstFrom(piece.Moments, hold.Note.Onset));
        for (var i = FirstFrom(piece.Moments, from); i < piece.Moments.Length && piece.Moments[i] is var moment && moment.Time < to; i++)
        {
            var settings = piece.Bars[moment.Bar].Settings;
            var sounding = holds.SoundingOn(moment).Where(h => !ReferenceEquals(h.Note, hold.Note) && !ReferenceEquals(h.Note, moved.Note))
                .Concat(both.Where(h => h.Note.Onset < moment.Time && h.Note.WantedEnd > moment.Time)).ToList();
            var together = Holds.Grip(moment, settings.Neck.Tuning.Strings, sounding, moved).Voicing;
            if (grips.Fingering(settings, together).Best is null)
                return false;
            // The fingers that took the note have to stay as well.
            var stays = sounding.Where(h => h.Note.Onset == hold.Note.Onset).Select(h => ReferenceEquals(h.Note, moved.Note) ? (moved.String, moved.Fret) : (h.String, h.Note.Fret!.Value))
                .Where(p => p.Item2 > 0).Aggregate(0, (all, p) => all | 1 << (p.Item1 - 1));
            if (stays != 0 && began is not null && HeldGrips.Keeping(settings, Holds.Grip(began, settings.Neck.Tuning.Strings, [], moved).Voicing, together, stays) is not { Dearer: < ExchangedFingers.Unusual })
                return false;
        }
        return true;
    }

    private static int FirstFrom(ImmutableArray<Moment> moments, Rational time)
    {
        int low = 0, high = moments.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (moments[middle].Time < time) low = middle + 1; else high = middle;
        }
        return low;
    }

    // 'ring until' the cut says what is heard anyway; it needs ring marks that speak for nothing that sounds on, a count that comes round first there, and nothing tied to the note behind it.
    private static IEnumerable<Fix> Shorter(Piece piece, IReadOnlyList<Hold> holds, Rational cut)
    {
        var hold = holds[0];
        var marks = holds.Select(h => RingOf(hold.Source, h.Note)).Distinct().ToList();
        if (marks.Contains(null) || hold.Source.Notes.Any(n => !n.Dead && n.End != cut && !holds.Any(h => ReferenceEquals(h.Note, n)) && marks.Contains(RingOf(hold.Source, n)))
            || hold.Source.Repeated || TiedLater(piece, hold) || piece.BarAt(cut) is not { } bar)
            yield break;
        var offset = bar.OffsetOf(cut);
        if (!CountSyntax.CanWrite(offset))
            yield break;
        for (var i = hold.Source.Bar; i < bar.Index; i++)
            if (offset >= piece.Bars[i].From && piece.Bars[i].TimeOf(offset) is var time && time > hold.Note.Onset && time < piece.Bars[i].End)
                yield break;
        var until = $" until {CountSyntax.Write(offset)}";
        yield return new($"Let it ring{until}", false, [.. marks.OfType<MarkSyntax>().OrderBy(m => m.Span.Start)
            .Select(m => new TextEdit(piece.Tree.Absolute(hold.Source.Line, m.Span), (m.String is { } s ? $"ring@{s}" : "ring") + until))]);
    }

    // The mark that says how long a note rings: one on its string goes before one on the whole sound.
    private static MarkSyntax? RingOf(Event e, Note note) => Last(e, m => m.String is not null && m.String == note.String) ?? Last(e, m => m.String is null);

    private static MarkSyntax? Last(Event e, Func<MarkSyntax, bool> of) => e.Marks.LastOrDefault(m => m.Kind is MarkKind.Ring or MarkKind.RingUntil or MarkKind.RingOver && of(m));

    private static bool TiedLater(Piece piece, Hold hold) =>
        piece.Events.FirstOrDefault(e => e.VoiceKey == hold.Source.VoiceKey && e.Onset > hold.Source.Onset && e.Kind != EventKind.Rest) is { Kind: EventKind.Tied };
}
