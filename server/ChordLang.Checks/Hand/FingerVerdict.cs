// Judges the fingers that are written for a grip, once for all checks, so that one slip gives one finding.
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using Digit = ChordLang.Fretboard.Hands.Finger;

namespace ChordLang.Checks.Hand;

/// <summary>What is wrong with the fingers of one grip.</summary>
/// <param name="Kind">The fault that explains most.</param>
/// <param name="Message">All faults, in plain sentences.</param>
/// <param name="Span">Where the fingers are written.</param>
/// <param name="Strings">The strings of all faults, highest first.</param>
/// <param name="Fixes">Fingers that can be.</param>
internal sealed record FingerVerdict(FingeringFaultKind Kind, string Message, Span Span, ImmutableArray<int> Strings, ImmutableArray<Fix> Fixes)
{
    private const int MostSentences = 3;

    // The fault that explains the others comes first: a finger on a silent string is why another string has none.
    private static readonly ImmutableArray<FingeringFaultKind> Gravest =
    [
        FingeringFaultKind.OneFingerOnTwoFrets, FingeringFaultKind.BarreOverLowerNote, FingeringFaultKind.FingerOnOpenOrMutedString,
        FingeringFaultKind.FrettedWithoutFinger, FingeringFaultKind.CrossedFingers, FingeringFaultKind.ThumbOutOfReach, FingeringFaultKind.StretchTooFar,
    ];

    private static readonly ConditionalWeakTable<Piece, List<FingerVerdict>> Kept = [];

    /// <summary>The verdicts of a piece: its own shapes first, then its grips.</summary>
    public static IEnumerable<FingerVerdict> Of(Piece piece) => Kept.GetValue(piece, p => [.. Shapes(p), .. Grips(p)]);

    // A shape is judged where it is defined, not wherever it is used; how far it stretches depends on where that is.
    private static IEnumerable<FingerVerdict> Shapes(Piece piece)
    {
        foreach (var shape in piece.Shapes.Values.Where(s => s.Path is null && s.Fingers is not null).OrderBy(s => s.Line))
        {
            if (piece.Tree.Lines[shape.Line] is not ShapeLine { Fingers: { } written })
                continue;
            var (voicing, settings) = (new Voicing(shape.Slots), piece.Settings);
            var fingers = shape.Fingers!.Value.Digits();
            var faults = FingeringFault.Find(settings.Neck, HeldGrips.HandOf(settings), voicing, fingers)
                .RemoveAll(f => f.Kind == FingeringFaultKind.StretchTooFar);
            var span = piece.Tree.Absolute(shape.Line, written.Span);
            var better = Better(HeldGrips.Of(piece), settings, voicing, fingers, faults);
            if (better.Length > 0)
                yield return Told(faults, span, voicing, better, f => [new(span, f.Text(voicing))]);
        }
    }

    private static IEnumerable<FingerVerdict> Grips(Piece piece)
    {
        foreach (var grip in HeldGrips.Of(piece).All)
        {
            var events = grip.Moment.Events.Where(e => e.Kind == EventKind.Struck && e.Marks.Any(m => m.Kind is MarkKind.Finger or MarkKind.Fingers)).ToImmutableArray();
            if (grip.Repeated || events.IsEmpty)
                continue;
            var (fingers, complete) = Written(grip, events);
            var faults = FingeringFault.Find(grip.Neck, grip.Hand, grip.Voicing, fingers)
                .RemoveAll(f => f.Kind == FingeringFaultKind.FrettedWithoutFinger ? !f.Strings.All(complete.Contains)
                    : f.Kind == FingeringFaultKind.FingerOnOpenOrMutedString && f.Strings.All(s => Sounds(grip, s)));
            var better = Better(HeldGrips.Of(piece), grip.Bar.Settings, grip.Voicing, fingers, faults);
            if (better.Length == 0)
                continue;
            var blamed = events.MaxBy(e => e.Notes.Length)!;
            var mark = blamed.Marks.Last(m => m.Kind is MarkKind.Finger or MarkKind.Fingers);
            yield return Told(faults, piece.Tree.Absolute(blamed.Line, mark.Operand?.Span ?? mark.Span), grip.Voicing, better,
                f => [.. events.Where(e => !e.Repeated).SelectMany(e => FingerEdits.Of(piece, grip.Voicing, e, f))]);
        }
    }

    // Fingers that can be: first those that keep what is not at fault, then the best of all. None where nothing is wrong, or where no fingers
    // hold the grip, which is a finding of its own.
    private static ImmutableArray<Fingers> Better(HeldGrips grips, Settings settings, Voicing voicing, Fingers written, ImmutableArray<FingeringFault> faults)
    {
        if (faults.Length == 0 || grips.Fingering(settings, voicing).Best is not { } best)
            return [];
        var kept = written.Slots.Select((f, i) => voicing.Slots[i] > 0 && !faults.Any(x => x.Strings.Contains(voicing.Strings - i)
            || x.Kind == FingeringFaultKind.BarreOverLowerNote && f is { } digit && x.Fingers.Contains(digit)) ? f : null).ToImmutableArray();
        return grips.Fingering(settings, voicing, new(kept)).Best is { } near && near != best ? [near, best] : [best];
    }

    private static FingerVerdict Told(
        ImmutableArray<FingeringFault> faults, Span span, Voicing voicing, ImmutableArray<Fingers> better, Func<Fingers, ImmutableArray<TextEdit>> edits)
    {
        var ordered = faults.OrderBy(f => Gravest.IndexOf(f.Kind)).ToImmutableArray();
        return new(ordered[0].Kind, $"{string.Join(' ', ordered.Take(MostSentences).Select(f => f.Message))} These fingers can be: {better[0].Text(voicing)}.",
            span, [.. faults.SelectMany(f => f.Strings).Distinct().Order()],
            // The sound stays, but fingers are the teacher's own choice, so none is changed unasked.
            [.. better.Select(f => new Fix($"Write the fingers {f.Text(voicing)}", false, edits(f))).Where(f => !f.Edits.IsEmpty)]);
    }

    // The written fingers of all rows, and the strings for which they claim to be whole.
    private static (Fingers Fingers, HashSet<int> Complete) Written(HeldGrip grip, ImmutableArray<Event> events)
    {
        var strings = grip.Voicing.Strings;
        var (slots, complete) = (new Digit?[strings], new HashSet<int>());
        foreach (var e in events)
        {
            var whole = e.Marks.LastOrDefault(m => m.Operand is FingersOperand o && o.Fingers.Length == strings)?.Operand as FingersOperand;
            for (var i = 0; whole is not null && i < strings; i++)
                slots[i] = whole.Fingers[i].Digit() ?? slots[i];
            foreach (var note in e.Notes)
                if (note.String is { } s && s >= 1 && s <= strings)
                {
                    slots[^s] = note.Dead || note.Harmonic ? null : note.Finger?.Digit() ?? slots[^s];
                    if (whole is not null)
                        complete.Add(s);
                }
        }
        return (new([.. slots]), complete);
    }

    // A finger may well be written for a string that it holds since before and that sounds on.
    private static bool Sounds(HeldGrip grip, int s) => grip.Voicing[s] is null && grip.Moment.Sounding.Any(h => h.Note.String == s && h.Note.Fret > 0);
}
