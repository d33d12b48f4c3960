// Tells where the tempo leaves the hand less time for a shift of position than it is likely to take.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Fretboard.Hands;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class FastShift : Check
{
    /// <inheritdoc/>
    public override string Code => "hand-fast-shift";

    /// <inheritdoc/>
    public override string Title => "A shift that is likely too fast for the tempo";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Information;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        (HeldGrip Grip, (int Lowest, int Highest) Positions)? before = null;
        foreach (var grip in HeldGrips.Of(piece).All)
        {
            if (grip.Bar.Settings is not { BeatsPerMinute: not null, Rubato: false } || before is { } other && other.Grip.Neck != grip.Neck)
                before = null;
            if (grip.Voicing.OuterFrets() is not (var low, var high))
                continue; // open strings leave the hand free
            // A whole grip leaves the hand no choice of position.
            var fingers = grip.Voicing.FingersNeeded();
            (int Lowest, int Highest) positions = fingers >= Shift.FingersOfGrip ? (low, low) : Shift.Positions(low, high);
            if (before is var (last, from))
            {
                if (Shift.Between(grip.Neck, from, positions) is not { } shift)
                    // Whoever plans ahead is where both can be held.
                    positions = (Math.Max(from.Lowest, positions.Lowest), Math.Min(from.Highest, positions.Highest));
                else if (!grip.Repeated && shift with { Fingers = fingers } is var whole && Seconds(last, grip) is var given && given < whole.Seconds)
                    yield return Told(last, grip, whole, given);
            }
            before = (grip, positions);
        }
    }

    private static double Seconds(HeldGrip from, HeldGrip to)
    {
        var (meter, tempo) = (from.Bar.Settings.Meter, from.Bar.Settings.BeatsPerMinute ?? to.Bar.Settings.BeatsPerMinute!.Value);
        return ((to.Moment.Time - from.Moment.Time) / meter.Beat).Value * 60 / tempo;
    }

    private Finding Told(HeldGrip from, HeldGrip to, Shift shift, double given) => new(Code, Severity,
        $"Here {(shift.Fingers >= Shift.FingersOfGrip ? "the whole grip" : "the hand")} has to shift from position {shift.From} to position {shift.To}, {shift.Millimetres:0} mm, and this tempo leaves {given:0.00} seconds for it; "
        + $"it is likely to take about {shift.Seconds:0.00}. Look for the notes on strings nearer to the hand, put an open string before the shift, or take a slower tempo.",
        to.Event.SoundSpan)
    {
        Strings = to.Fretted, Related = [new($"From position {shift.From} here", from.Event.SoundSpan, null)],
    };
}
