// Warns where a grip takes more fingers than a hand has, barres and thumb counted.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using LeftHand = ChordLang.Fretboard.Hands.Hand;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class TooManyFingers : Check
{
    /// <inheritdoc/>
    public override string Code => "hand-too-many-fingers";

    /// <inheritdoc/>
    public override string Title => "A grip that takes more than four fingers";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        foreach (var grip in HeldGrip.Of(piece))
            if (grip.Voicing.FingersNeeded() > Grip.Fingers
                && FingeringSearch.Best(grip.Bar.Settings.Neck, LeftHand.Medium, grip.Voicing).None is { Obstacle: FingeringObstacle.TooManyFingers } none)
                yield return new(Code, Severity, none.Message + " The thumb over the neck does not help here. Leave a note out, or use an open string.",
                    grip.Event.SoundSpan)
                {
                    Strings = [.. grip.Notes.Where(h => h.Note.Fret > 0).Select(h => h.Note.String!.Value).Order()],
                };
    }
}
