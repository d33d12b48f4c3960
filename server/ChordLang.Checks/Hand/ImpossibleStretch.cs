// Reports a grip for which every fingering was tried and none reaches, with the two fingers that fail and their millimetres.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Fretboard.Fingering;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class ImpossibleStretch : Check
{
    /// <inheritdoc/>
    public override string Code => "hand-impossible-stretch";

    /// <inheritdoc/>
    public override string Title => "A stretch that no fingering reaches";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Error;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        var grips = HeldGrips.Of(piece);
        foreach (var grip in grips.All)
        {
            if (grip.Repeated || grips.Fingering(grip).None is not { Obstacle: FingeringObstacle.TooFar, Limiting: { } far } none)
                continue;
            var fixes = OtherStrings.For(piece, grip, v => grips.Fingering(grip.Bar.Settings, v) is { Best: not null, Cost: var cost } ? cost : null);
            yield return new(Code, Severity, $"{none.Message} "
                + (fixes.IsEmpty ? "Choose another grip, or leave a note out. " : "Take one note on another string. ") + "Do not force it: stop when it hurts.", grip.Event.SoundSpan)
            {
                Strings = [.. far.Strings.Order()], Fixes = fixes,
            };
        }
    }
}
