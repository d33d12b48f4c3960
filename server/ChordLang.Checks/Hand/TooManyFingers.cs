// Warns where a grip takes more fingers than a hand has, barres and thumb counted.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Fretboard.Fingering;

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
        var grips = HeldGrips.Of(piece);
        foreach (var grip in grips.All)
        {
            if (grip.Repeated || grips.Fingering(grip).None is not { Obstacle: FingeringObstacle.TooManyFingers } none)
                continue;
            var fixes = OtherStrings.For(piece, grip, v => grips.Fingering(grip.Bar.Settings, v) is { Best: not null, Cost: var cost } ? cost : null);
            yield return new(Code, Severity, $"{none.Message} The thumb over the neck does not help here. "
                + (fixes.IsEmpty ? "Leave a note out, or use an open string." : "Take one note on another string, or leave one out."), grip.Event.SoundSpan)
            {
                Strings = grip.Fretted, Fixes = fixes,
            };
        }
    }
}
