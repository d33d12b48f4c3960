// Warns where the outer fretted notes lie farther apart than the hand reaches, in millimetres, for frets are wider near the nut.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Names;
using ChordLang.Fretboard.Hands;
using LeftHand = ChordLang.Fretboard.Hands.Hand;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class WideStretch : Check
{
    // Half a millimetre is less than the width of a fret wire: who says 'reach 5 to 9' reaches exactly that.
    private const double Tolerance = 0.5;

    /// <inheritdoc/>
    public override string Code => "hand-wide-stretch";

    /// <inheritdoc/>
    public override string Title => "A stretch wider than the hand reaches";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        foreach (var grip in HeldGrip.Of(piece))
        {
            var (neck, reach) = (grip.Bar.Settings.Neck, grip.Bar.Settings.Reach);
            var limit = reach is (var from, var to) ? neck.Distance(from, to) : LeftHand.Medium.Limit(Finger.First, Finger.Little);
            if (grip.Voicing.OuterFrets() is not (var low, var high) || grip.Voicing.Span(neck) is var span && span <= limit + Tolerance)
                continue;
            var outer = grip.Notes.Where(h => h.Note.Fret == low || h.Note.Fret == high).ToImmutableArray();
            var fixes = Closer(piece, grip, outer, limit + Tolerance);
            yield return new(Code, Severity,
                $"Frets {low} and {high} lie {span:0} mm apart on this neck, and {(reach is null ? "hardly any hand" : "the reach you declared")} goes beyond {limit:0} mm. "
                + (fixes.IsEmpty ? "Choose another grip, or leave a note out. " : "Take one note on another string. ") + "Do not force it: stop when it hurts.",
                grip.Event.SoundSpan)
            {
                Strings = [.. outer.Select(h => h.Note.String!.Value).Order()], Fixes = fixes,
            };
        }
    }

    // The same pitch on a free string, where that brings the hand together.
    private static ImmutableArray<Fix> Closer(Piece piece, HeldGrip grip, ImmutableArray<Heard> outer, double limit)
    {
        var neck = grip.Bar.Settings.Neck;
        var fixes = new List<(double Span, Fix Fix)>();
        foreach (var (note, source) in outer)
            for (var s = 1; s <= neck.Tuning.Strings; s++)
                if (grip.Voicing[s] is null && neck.FretOf(s, note.Midi) is { } fret && !source.Has(Grammar.Syntax.MarkKind.Fingers)
                    && !source.Marks.Any(m => m.String is not null) && Moved(grip, note, s, fret).Span(neck) is var span && span <= limit)
                {
                    var change = new Change(new(note, source, true), s, fret, note.Midi);
                    var edits = Rewriting.Of(piece, _ => note.Pitch.Name, source, [change]);
                    if (!edits.IsEmpty)
                        fixes.Add((span, new($"Play {note.Pitch} at fret {fret} of string {s}", true, edits)));
                }
        return [.. fixes.OrderBy(f => f.Span).Take(2).Select(f => f.Fix)];
    }

    private static Fretboard.Voicings.Voicing Moved(HeldGrip grip, Note note, int to, int fret)
    {
        var slots = grip.Voicing.Slots.ToArray();
        slots[^note.String!.Value] = null;
        slots[^to] = fret;
        return new([.. slots]);
    }
}
