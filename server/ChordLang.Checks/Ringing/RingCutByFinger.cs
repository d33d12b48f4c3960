// Warns where a note is asked to sound on, but the finger that holds it is needed elsewhere.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Hand;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Checks.Ringing;

/// <summary>See its page.</summary>
public sealed class RingCutByFinger : Check
{
    /// <inheritdoc/>
    public override string Code => "ring-cut-by-finger";

    /// <inheritdoc/>
    public override string Title => "A ringing note cut because its finger has to move";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        var (grips, waiting) = (HeldGrips.Of(piece), new Queue<Hold>(Holds.Of(piece).All.Where(h => h is { Asked: true, Note: { Dead: false, Harmonic: false } })));
        var sounding = new List<Hold>();
        foreach (var moment in piece.Moments)
        {
            sounding.RemoveAll(h => h.Note.End <= moment.Time);
            if (sounding.Count > 0 && Cut(grips, piece, moment, sounding) is { } cut)
            {
                // What is cut sounds no more: it cannot be cut twice.
                sounding.RemoveAll(h => ReferenceEquals(h.Source, cut.Holds[0].Source));
                if (!cut.Holds[0].Source.Repeated)
                    yield return Told(piece, moment, cut);
            }
            else if (sounding.Count > 0 && ExchangedFingers.Of(grips, piece, moment, sounding) is { } exchanged)
            {
                sounding.RemoveAll(h => ReferenceEquals(h.Source, exchanged.Source));
                if (!exchanged.Source.Repeated)
                    yield return exchanged.Told(this);
            }
            while (waiting.TryPeek(out var next) && next.Note.Onset <= moment.Time)
                sounding.Add(waiting.Dequeue());
        }
    }

    private sealed record Cutting(ImmutableArray<Hold> Holds, NoFingering Why, bool AsWritten, ImmutableArray<Fix> Fixes);

    private static Cutting? Cut(HeldGrips grips, Piece piece, Moment moment, List<Hold> sounding)
    {
        var settings = piece.Bars[moment.Bar].Settings;
        var strings = settings.Neck.Tuning.Strings;
        if (sounding.Any(h => h.String > strings))
            return null; // the tuning changed while they rang
        var (together, given) = Holds.Grip(moment, strings, sounding);
        var (alone, own) = Holds.Grip(moment, strings, []);
        if (grips.Fingering(settings, alone).Best is null)
            return null;
        if (grips.Fingering(settings, together).None is { } none)
        {
            var blamed = Blamed(sounding, rest => grips.Fingering(settings, Holds.Grip(moment, strings, rest).Voicing).Best is not null);
            var cutters = Holds.Of(piece).All.Where(h => h.Note.Onset == moment.Time && !h.Source.Repeated);
            return new(blamed, none, false, blamed.Length > 1 ? [] : RingFixes.For(piece, blamed[0], cutters, moment.Time));
        }
        // It can be held, but perhaps not by the fingers that are written.
        if (given.Slots.All(f => f is null) || grips.Fingering(settings, alone, own).Best is null || grips.Fingering(settings, together, given).None is not { } kept)
            return null;
        var left = Blamed(sounding, rest => Holds.Grip(moment, strings, rest) is var (voicing, written) && grips.Fingering(settings, voicing, written).Best is not null);
        return new(left, kept, true, left is [var hold] ? [.. OtherFinger(grips, piece, hold, moment, together, given), .. Around(grips, piece, moment, together, given)] : []);
    }

    // The one note, else the one event, without which the hand can hold the rest; else the event that has sounded longest.
    internal static ImmutableArray<Hold> Blamed(List<Hold> sounding, Func<IEnumerable<Hold>, bool> holdable)
    {
        foreach (var hold in sounding)
            if (holdable(sounding.Where(h => !ReferenceEquals(h, hold))))
                return [hold];
        var events = sounding.GroupBy(h => h.Source, ReferenceEqualityComparer.Instance).ToList();
        return [.. events.FirstOrDefault(g => holdable(sounding.Where(h => !ReferenceEquals(h.Source, g.Key)))) ?? events[0]];
    }

    // Another finger for the ringing note from the start, where the grip in which it is struck allows it.
    private static IEnumerable<Fix> OtherFinger(HeldGrips grips, Piece piece, Hold hold, Moment moment, Voicing together, Fingers given)
    {
        if (hold.Source.Repeated || grips.All.FirstOrDefault(g => g.Moment.Time == hold.Note.Onset) is not { } grip
            || grips.Fingering(piece.Bars[moment.Bar].Settings, together, With(given, hold.String, null)).Best?[hold.String] is not { } finger)
            yield break;
        var wanted = With(Holds.Grip(grip.Moment, grip.Voicing.Strings, []).Fingers, hold.String, finger);
        if (grips.Fingering(grip.Bar.Settings, grip.Voicing, wanted).Best is { } best && FingerEdits.Of(piece, grip.Voicing, hold.Source, best).ToImmutableArray() is { IsEmpty: false } edits)
            yield return new($"Take {hold.Note.Pitch} with the {finger.Spoken()}", false, edits);
    }

    // Other fingers for what is struck, around those that stay.
    private static IEnumerable<Fix> Around(HeldGrips grips, Piece piece, Moment moment, Voicing together, Fingers given)
    {
        foreach (var (note, _) in moment.Struck)
            if (note.String is { } s && s <= together.Strings)
                given = With(given, s, null);
        if (grips.Fingering(piece.Bars[moment.Bar].Settings, together, given).Best is not { } best)
            yield break;
        var edits = moment.Events.Where(e => !e.Repeated).SelectMany(e => FingerEdits.Of(piece, Holds.Grip(moment, together.Strings, []).Voicing, e, best)).ToImmutableArray();
        if (!edits.IsEmpty)
            yield return new("Take " + string.Join(" and ", moment.Struck.Where(h => h.Note.Fret > 0).Select(h => $"{h.Note.Pitch} with the {best[h.Note.String!.Value]?.Spoken()}")), false, edits);
    }

    private static Fingers With(Fingers fingers, int s, Finger? finger) => new(fingers.Slots.SetItem(fingers.Slots.Length - s, finger));

    private Finding Told(Piece piece, Moment moment, Cutting cut)
    {
        var (first, struck) = (cut.Holds[0], moment.Events.MaxBy(e => e.Notes.Length)!);
        var what = cut.Holds is [var one] ? one.Note.Named() : $"{string.Join(" and ", cut.Holds.Select(h => h.Note.Pitch))}";
        var verb = RingWords.Asks(piece, first);
        var moves = cut.Fixes.Any(f => f.Title.StartsWith("Play", StringComparison.Ordinal));
        return new(Code, Severity,
            $"{what} {(cut.Holds.Length > 1 ? verb.Replace("is ", "are ", StringComparison.Ordinal) : verb)}, but in {RingWords.At(piece, moment.Time)}, "
            + $"{string.Join(" and ", moment.Struck.Select(h => h.Note.Pitch))} {(moment.Struck.Skip(1).Any() ? "take" : "takes")} the hand away: {Why(cut)}. "
            + (cut.AsWritten ? "Take other fingers, or let the note end there."
                : moves ? "Put one of the notes on another string, or let the first end there." : "Change the grip, or let the first end there."),
            cut.Holds is [var only] ? only.Note.Span : first.Source.SoundSpan)
        {
            Strings = [.. cut.Holds.Select(h => h.String).Order()], Fixes = cut.Fixes, Related = [new("This takes the hand away", struck.SoundSpan, null)],
        };
    }

    private static string Why(Cutting cut) => cut switch
    {
        { AsWritten: true } => "with the fingers that are written, none can stay on it",
        { Why: { Obstacle: FingeringObstacle.TooFar, Limiting: { } far } } =>
            $"held together, the {far.Pair} would lie {far.Millimetres:0} mm apart even in the nearest fingering, and this hand reaches {far.Limit:0} mm there",
        _ => $"held together, they take {cut.Why.FingersNeeded} fingers even where one lies across several strings",
    };
}
