// Finds ringing notes that the hand could hold beside what follows, had it not taken them with a finger that is wanted elsewhere.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Hand;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Text;

namespace ChordLang.Checks.Ringing;

/// <summary>Ringing notes whose finger would have to be exchanged.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Moment">When.</param>
/// <param name="Holds">The notes that are let go.</param>
/// <param name="Kept">The fingers with which they could stay, or null where there are none.</param>
/// <param name="Usual">The fingers that players take.</param>
/// <param name="Fixes">Repairs.</param>
internal sealed record ExchangedFingers(Piece Piece, Moment Moment, ImmutableArray<Hold> Holds, Fingers? Kept, Fingers? Usual, ImmutableArray<Fix> Fixes)
{
    // Ours: fingers that players take, by the fit of the table, e to the fifth (150) times less often than the usual ones have to be planned.
    internal const double Unusual = 5;

    /// <summary>The event that strikes the notes.</summary>
    public Event Source => Holds[0].Source;

    /// <summary>The notes that are let go at a moment, or null. Where fingers are written, these are judged instead.</summary>
    public static ExchangedFingers? Of(HeldGrips grips, Piece piece, Moment moment, List<Hold> sounding)
    {
        var settings = piece.Bars[moment.Bar].Settings;
        var strings = settings.Neck.Tuning.Strings;
        if (sounding.Any(h => h.String > strings || h.Note.Finger is not null) || moment.Struck.All(h => h.Note.Fret is not > 0) || moment.Struck.Any(h => h.Note.Finger is not null || h.Note.String is null))
            return null;
        foreach (var together in sounding.Where(h => h.Note.Fret > 0).GroupBy(h => h.Note.Onset))
        {
            if (grips.At(together.Key) is not { } first || first.Neck != settings.Neck || first.Notes.Any(h => h.Note.Finger is not null))
                continue;
            bool Stays(IEnumerable<Hold> rest) => Keeping(rest) is { Dearer: < Unusual };
            KeptFingers? Keeping(IEnumerable<Hold> rest)
            {
                var left = rest.ToList();
                return HeldGrips.Keeping(settings, first.Voicing, Ringing.Holds.Grip(moment, strings, left).Voicing, left.Where(h => h.Note.Onset == together.Key && h.Note.Fret > 0).Aggregate(0, (all, h) => all | 1 << (h.String - 1)));
            }
            if (grips.Fingering(first).Best is not { } usual || grips.Fingering(settings, Ringing.Holds.Grip(moment, strings, sounding).Voicing).Best is null || Stays(sounding))
                continue;
            var (blamed, kept) = (RingCutByFinger.Blamed([.. together], rest => Stays(sounding.Except(together).Concat(rest))), Keeping(sounding)?.First);
            var edits = kept is null ? [] : first.Moment.Events.Where(e => !e.Repeated).SelectMany(e => Written(piece, first.Voicing, e, kept)).ToImmutableArray();
            var fixes = blamed.Length > 1 ? RingFixes.ForAll(piece, blamed, moment.Time) : RingFixes.For(piece, blamed[0], [], moment.Time);
            return new(piece, moment, blamed, kept, usual, edits.IsEmpty ? fixes : [new($"Take the grip with the fingers {kept!.Text(first.Voicing)}", false, edits), .. fixes]);
        }
        return null;
    }

    // Fingers behind the sound: none are written yet.
    private static IEnumerable<TextEdit> Written(Piece piece, Voicing voicing, Event e, Fingers fingers)
    {
        if (e.Syntax is not { } played || !e.Notes.Any(n => n.Fret > 0))
            yield break;
        var own = e.Notes.Select(n => n.String ?? 0).ToHashSet();
        Fingers mine = new([.. fingers.Slots.Select((f, i) => own.Contains(fingers.Slots.Length - i) ? f : null)]);
        var text = e.Notes is [{ String: { } s }] ? $" finger {mine[s]?.Written()}" : $" fingers {mine.Text(new([.. voicing.Slots.Select((f, i) => own.Contains(voicing.Slots.Length - i) ? f : null)]))}";
        yield return new(new(piece.Tree.Absolute(e.Line, played.Sound.Span).End, 0), text);
    }

    /// <summary>The finding: an information where the grip can be taken otherwise.</summary>
    public Finding Told(Check check)
    {
        var (first, struck) = (Holds[0], Moment.Events.MaxBy(e => e.Notes.Length)!);
        var (what, verb) = (Holds is [var one] ? one.Note.Named() : RingWords.Listed(Holds.Select(h => $"{h.Note.Pitch}")), RingWords.Asks(Piece, first));
        var finger = Holds is [var only] && Usual?[only.String] is { } f ? $"the {f.Spoken()}" : "a finger that holds it";
        return new(check.Code, Kept is null ? check.Severity : Severity.Information,
            $"{what} {(Holds.Length > 1 ? verb.Replace("is ", "are ", StringComparison.Ordinal) : verb)}, but in {RingWords.At(Piece, Moment.Time)}, "
            + $"{RingWords.Listed(Moment.Struck.Select(h => $"{h.Note.Pitch}"))} {(Moment.Struck.Skip(1).Any() ? "take" : "takes")} the hand away: with the usual fingers, {Usual}, {finger} has to leave. "
            + (Kept is null ? "No finger can stay on it: change the grip, or let it end there." : $"Taken with {Kept} from the start, it can stay; or let it end there."),
            Holds is [var note] ? note.Note.Span : Source.SoundSpan)
        {
            Strings = [.. Holds.Select(h => h.String).Order()], Fixes = Fixes, Related = [new("This takes the hand away", struck.SoundSpan, null)],
        };
    }
}
