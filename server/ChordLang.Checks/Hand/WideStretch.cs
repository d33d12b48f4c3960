// Tells where even the best fingering goes beyond the comfort of the hand, in millimetres, for frets are wider near the nut.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
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
    public override string Title => "A stretch wider than the hand is at ease with";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Information;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        var grips = HeldGrips.Of(piece);
        foreach (var grip in grips.All)
        {
            if (grip.Repeated || Undeclared(grip) && !PastPosition(grip.Voicing) || grips.Fingering(grip).Best is not { } best
                || Widest(grip.Neck, grip.Hand, grip.Voicing, best) is not { } wide || !Beyond(wide))
                continue;
            var fixes = OtherStrings.For(piece, grip, v => !(Undeclared(grip) && PastPosition(v)) && grips.Fingering(grip.Bar.Settings, v) is { Best: { } other, Cost: var cost }
                && (Widest(grip.Neck, grip.Hand, v, other) is not { } still || !Beyond(still)) ? cost : null);
            yield return new(Code, Severity,
                $"Even with the best fingers, {best}, the {wide.Pair} lie {wide.Millimetres:0} mm apart; {(Undeclared(grip) ? $"a {grip.Hand.Name} hand is" : "by the reach you declared they are")} at ease up to {wide.Limit:0} mm. "
                + (fixes.IsEmpty ? "Choose another grip, or leave a note out. " : "One note could go to another string. ") + "Do not force it: stop when it hurts.",
                grip.Event.SoundSpan)
            {
                Strings = [.. wide.Strings.Order()], Fixes = fixes,
            };
        }
    }

    private static bool Undeclared(HeldGrip grip) => grip.Bar.Settings.Reach is null;

    // Of a hand that nobody measured nothing is said as long as one position holds the grip, the little finger stretched by a fret (common practice).
    private static bool PastPosition(Voicing voicing) => voicing.OuterFrets() is (var low, var high) && high - low >= Shift.FretsOfPosition;

    private static bool Beyond(Stretch stretch) => stretch.Millimetres > stretch.Limit + Tolerance;

    // The pair furthest beyond comfort: the one that would fail first in a hand that reaches no further than is comfortable.
    private static Stretch? Widest(Neck neck, LeftHand hand, Voicing voicing, Fingers fingers) =>
        Stretch.Of(neck, hand with { Reach = [.. hand.Reach.Select(r => r with { Limit = r.Comfortable })] }, voicing, fingers);
}
