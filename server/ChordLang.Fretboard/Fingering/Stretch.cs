// How far a fingering pulls two fingers apart, against the hand.
using System.Collections.Immutable;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Fretboard.Fingering;

/// <summary>Two fingers of a grip and the distance between their frets.</summary>
/// <param name="Pair">The two digits.</param>
/// <param name="Millimetres">Distance along the neck between their frets.</param>
/// <param name="Comfortable">What this hand holds comfortably between them.</param>
/// <param name="Limit">What this hand can reach between them.</param>
/// <param name="Strings">The strings they hold, by number, lowest string first.</param>
public sealed record Stretch(FingerPair Pair, double Millimetres, double Comfortable, double Limit, ImmutableArray<int> Strings)
{
    /// <summary>Whether the hand cannot reach so far.</summary>
    public bool Impossible => Millimetres > Limit;

    /// <summary>Whether the hand is stretched beyond comfort.</summary>
    public bool Wide => Millimetres > Comfortable;

    /// <summary>
    /// The two fingers that come nearest to the hand's limit (or pass it furthest), or null where fewer than two digits hold strings.
    /// </summary>
    public static Stretch? Of(Neck neck, Hand hand, Voicing voicing, Fingers fingers)
    {
        (int Slot, int Other, double Ratio) worst = (-1, -1, -1);
        var slots = Math.Min(voicing.Slots.Length, fingers.Slots.Length);
        for (var i = 0; i < slots; i++)
            for (var j = i + 1; j < slots; j++)
                if (fingers.Slots[i] is { } a && fingers.Slots[j] is { } b && a != b && voicing.Slots[i] is > 0 and var fa && voicing.Slots[j] is > 0 and var fb
                    && neck.Distance(fa, fb) / hand.Limit(a, b) is var ratio && ratio > worst.Ratio)
                    worst = (i, j, ratio);
        if (worst.Slot < 0)
            return null;
        var (one, other) = (fingers.Slots[worst.Slot]!.Value, fingers.Slots[worst.Other]!.Value);
        return new(new(one, other), neck.Distance(voicing.Slots[worst.Slot]!.Value, voicing.Slots[worst.Other]!.Value),
            hand.Comfortable(one, other), hand.Limit(one, other), [voicing.Strings - worst.Slot, voicing.Strings - worst.Other]);
    }
}
