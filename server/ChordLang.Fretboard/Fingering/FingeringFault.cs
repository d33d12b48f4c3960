// What is wrong with fingers that somebody wrote down.
using System.Collections.Immutable;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Fretboard.Fingering;

/// <summary>The ways in which a written fingering cannot be.</summary>
public enum FingeringFaultKind
{
    /// <summary>A finger with a higher number lies on a lower fret than one with a lower number.</summary>
    CrossedFingers,
    /// <summary>A finger is written for a string that is open or not played.</summary>
    FingerOnOpenOrMutedString,
    /// <summary>A fretted string has no finger, though fingers are written for the grip.</summary>
    FrettedWithoutFinger,
    /// <summary>One finger is written on two frets.</summary>
    OneFingerOnTwoFrets,
    /// <summary>A finger lies across a string that sounds lower than its fret, and so would stop it.</summary>
    BarreOverLowerNote,
    /// <summary>The thumb is written for a string that it cannot reach from over the neck.</summary>
    ThumbOutOfReach,
    /// <summary>Two fingers lie further apart than the hand reaches.</summary>
    StretchTooFar,
}

/// <summary>One thing that is wrong with a fingering.</summary>
/// <param name="Kind">Which fault.</param>
/// <param name="Fingers">The digits concerned, lowest number first; empty where none is written.</param>
/// <param name="Strings">The strings to blame, by number, lowest string first.</param>
/// <param name="Message">What is wrong, in one plain sentence.</param>
/// <param name="Stretch">For <see cref="FingeringFaultKind.StretchTooFar"/>: the pair and its millimetres.</param>
public sealed record FingeringFault(
    FingeringFaultKind Kind, ImmutableArray<Finger> Fingers, ImmutableArray<int> Strings, string Message, Stretch? Stretch = null)
{
    private const int ThumbStrings = 2; // common practice: the two lowest

    /// <summary>Everything that is wrong with a fingering, in the order of <see cref="FingeringFaultKind"/>; empty where it can be.</summary>
    /// <param name="neck">Where the frets lie.</param>
    /// <param name="hand">Whose reach counts.</param>
    /// <param name="voicing">The grip.</param>
    /// <param name="fingers">Its fingers; slots beyond the voicing's strings are ignored.</param>
    /// <param name="complete">Whether the fingering claims to be whole; a single finger mark does not.</param>
    public static ImmutableArray<FingeringFault> Find(Neck neck, Hand hand, Voicing voicing, Fingers fingers, bool complete = true)
    {
        var held = Holds(voicing, fingers);
        var faults = ImmutableArray.CreateBuilder<FingeringFault>();
        Crossed(held, faults);
        Idle(voicing, fingers, faults);
        if (complete)
            Unfingered(voicing, fingers, faults);
        TwoFrets(held, faults);
        Covered(voicing, held, faults);
        Thumb(voicing, held, faults);
        if (Fretboard.Fingering.Stretch.Of(neck, hand, voicing, fingers) is { Impossible: true } far)
            faults.Add(new(FingeringFaultKind.StretchTooFar, [far.Pair.Lower, far.Pair.Upper], far.Strings,
                $"The {far.Pair} lie {far.Millimetres:0} mm apart on {Names(far.Strings)}; this hand reaches {far.Limit:0} mm between them.", far));
        return faults.ToImmutable();
    }

    private readonly record struct Hold(Finger Finger, int String, int Fret);

    private static List<Hold> Holds(Voicing voicing, Fingers fingers)
    {
        var held = new List<Hold>();
        for (var i = 0; i < voicing.Slots.Length && i < fingers.Slots.Length; i++)
            if (fingers.Slots[i] is { } finger && voicing.Slots[i] is > 0 and var fret)
                held.Add(new(finger, voicing.Strings - i, fret));
        return held;
    }

    private static void Crossed(List<Hold> held, ImmutableArray<FingeringFault>.Builder faults)
    {
        foreach (var low in held)
            foreach (var high in held)
                if (low.Finger != Finger.Thumb && low.Finger < high.Finger && low.Fret > high.Fret
                    && !faults.Any(f => f.Fingers[0] == low.Finger && f.Fingers[1] == high.Finger))
                    faults.Add(new(FingeringFaultKind.CrossedFingers, [low.Finger, high.Finger], Down(low.String, high.String),
                        $"The {high.Finger.Spoken()} on string {high.String}, fret {high.Fret}, lies behind the {low.Finger.Spoken()} on string {low.String}, "
                        + $"fret {low.Fret}: the fingers are crossed. Swap them."));
    }

    private static void Idle(Voicing voicing, Fingers fingers, ImmutableArray<FingeringFault>.Builder faults)
    {
        for (var i = 0; i < voicing.Slots.Length && i < fingers.Slots.Length; i++)
            if (fingers.Slots[i] is { } finger && voicing.Slots[i] is null or 0)
                faults.Add(new(FingeringFaultKind.FingerOnOpenOrMutedString, [finger], [voicing.Strings - i],
                    $"The {finger.Spoken()} is written on string {voicing.Strings - i}, which is {(voicing.Slots[i] is null ? "not played (muted)" : "open")}: "
                    + "it holds nothing there."));
    }

    private static void Unfingered(Voicing voicing, Fingers fingers, ImmutableArray<FingeringFault>.Builder faults)
    {
        for (var i = 0; i < voicing.Slots.Length; i++)
            if (voicing.Slots[i] is > 0 and var fret && (i >= fingers.Slots.Length || fingers.Slots[i] is null))
                faults.Add(new(FingeringFaultKind.FrettedWithoutFinger, [], [voicing.Strings - i],
                    $"String {voicing.Strings - i} sounds at fret {fret}, but no finger is written for it."));
    }

    private static void TwoFrets(List<Hold> held, ImmutableArray<FingeringFault>.Builder faults)
    {
        foreach (var group in held.GroupBy(h => h.Finger))
            if (group.FirstOrDefault(h => h.Fret != group.First().Fret) is { Fret: > 0 } other)
                faults.Add(new(FingeringFaultKind.OneFingerOnTwoFrets, [group.Key], [.. group.Select(h => h.String)],
                    $"One finger on two frets: the {group.Key.Spoken()} is written on string {group.First().String}, fret {group.First().Fret}, "
                    + $"and on string {other.String}, fret {other.Fret}."));
    }

    private static void Covered(Voicing voicing, List<Hold> held, ImmutableArray<FingeringFault>.Builder faults)
    {
        foreach (var group in held.GroupBy(h => (h.Finger, h.Fret)).Where(g => g.Count() > 1))
        {
            var (from, to) = (group.First().String, group.Last().String);
            var stopped = Enumerable.Range(to + 1, from - to - 1).Where(s => voicing[s] < group.Key.Fret).Reverse().ToImmutableArray();
            if (stopped.Length > 0)
                faults.Add(new(FingeringFaultKind.BarreOverLowerNote, [group.Key.Finger], stopped,
                    $"The {group.Key.Finger.Spoken()} lies across strings {from} to {to} at fret {group.Key.Fret} and would stop {Names(stopped)}, "
                    + "which must sound lower."));
        }
    }

    private static void Thumb(Voicing voicing, List<Hold> held, ImmutableArray<FingeringFault>.Builder faults)
    {
        foreach (var hold in held.Where(h => h.Finger == Finger.Thumb && h.String <= voicing.Strings - ThumbStrings))
            faults.Add(new(FingeringFaultKind.ThumbOutOfReach, [Finger.Thumb], [hold.String],
                $"The thumb is written on string {hold.String}; from over the neck it reaches the two lowest strings."));
    }

    private static ImmutableArray<int> Down(int one, int other) => one > other ? [one, other] : [other, one];

    private static string Names(ImmutableArray<int> strings) =>
        strings.Length == 1 ? $"string {strings[0]}" : $"strings {string.Join(", ", strings[..^1])} and {strings[^1]}";
}
