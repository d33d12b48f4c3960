// What a voicing asks of any left hand, before fingers are chosen: how wide it is and how many fingers it takes.
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Fretboard.Hands;

/// <summary>Measures of a voicing as a grip.</summary>
public static class Grip
{
    /// <summary>The most fingers that hold strings at one time (common practice).</summary>
    public const int Fingers = 4;

    /// <summary>Millimetres along the neck between the outer fretted notes; 0 where fewer than two frets are held.</summary>
    public static double Span(this Voicing voicing, Neck neck) =>
        voicing.OuterFrets() is (var low, var high) ? neck.Distance(low, high) : 0;

    /// <summary>The lowest and the highest fret held, open strings aside; null where nothing is fretted.</summary>
    public static (int Low, int High)? OuterFrets(this Voicing voicing)
    {
        int low = int.MaxValue, high = 0;
        foreach (var slot in voicing.Slots)
            if (slot is > 0 and var fret)
                (low, high) = (Math.Min(low, fret), Math.Max(high, fret));
        return high == 0 ? null : (low, high);
    }

    /// <summary>
    /// The fewest fingers that hold the voicing, where one finger may lie across any strings of one fret (a barre, a half-barre, two
    /// neighbours) as long as no open or lower-fretted string sounds between them; a muted string between does no harm.
    /// A thumb over the neck takes the place of a finger, it does not add one.
    /// </summary>
    public static int FingersNeeded(this Voicing voicing)
    {
        var total = 0;
        for (var i = 0; i < voicing.Slots.Length; i++)
            if (voicing.Slots[i] is > 0 and var fret && !HeldByTheFingerBefore(voicing, i, fret))
                total++;
        return total;
    }

    // Walks down from slot i: the same fret first means one finger can lie across, a lower note first means it cannot.
    private static bool HeldByTheFingerBefore(Voicing voicing, int i, int fret)
    {
        for (var j = i - 1; j >= 0; j--)
        {
            if (voicing.Slots[j] == fret)
                return true;
            if (voicing.Slots[j] < fret)
                return false;
        }
        return false;
    }
}
