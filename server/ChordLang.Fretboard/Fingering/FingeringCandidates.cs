// Every way in which four fingers can lie on a voicing: few enough to try them all, so that 'none' is a proof.
using System.Collections.Immutable;
using System.Numerics;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Fretboard.Fingering;

/// <summary>
/// The possible fingerings of a voicing, the reach of the hand left aside. A finger lies on one fret; on a higher fret lies a finger with
/// a higher number; a finger lies across several strings where no lower note sounds between them (common practice).
/// </summary>
internal static class FingeringCandidates
{
    /// <summary>All of them; the slots of one candidate are 0 where no finger lies, 5 for the thumb. Empty where there are none.</summary>
    /// <param name="voicing">The grip.</param>
    /// <param name="thumb">Whether the thumb holds the lowest fretted string (one of the two lowest), with three fingers beside it.</param>
    public static List<byte[]> Of(Voicing voicing, bool thumb)
    {
        var found = new List<byte[]>();
        var strings = voicing.Strings;
        Span<int> frets = stackalloc int[strings];
        for (var i = 0; i < strings; i++)
            frets[i] = voicing.Slots[i] ?? -1;
        var held = thumb ? ThumbSlot(frets) : -1;
        if (thumb && held < 0)
            return found;

        // Fretted slots by fret, then from the lowest string up: the order in which fingers are dealt out.
        Span<int> order = stackalloc int[strings];
        var n = 0;
        for (var i = 0; i < strings; i++)
            if (frets[i] > 0 && i != held)
            {
                var at = n++;
                for (; at > 0 && frets[order[at - 1]] > frets[i]; at--)
                    order[at] = order[at - 1];
                order[at] = i;
            }
        var joinable = 0;
        for (var k = 1; k < n; k++)
            if (frets[order[k]] == frets[order[k - 1]] && !LowerNoteBetween(frets, order[k - 1], order[k]))
                joinable |= 1 << k;

        var most = thumb ? Grip.Fingers - 1 : Grip.Fingers;
        for (var joined = joinable; ; joined = (joined - 1) & joinable)
        {
            var groups = n - BitOperations.PopCount((uint)joined);
            if (groups <= most)
                Deal(found, frets, order[..n], joined, groups, held);
            if (joined == 0)
                return found;
        }
    }

    /// <summary>The slot that a thumb over the neck would hold: the lower of the two lowest strings that is fretted, or -1.</summary>
    public static int ThumbSlot(ReadOnlySpan<int> frets) =>
        frets.Length > 0 && frets[0] > 0 ? 0 : frets.Length > 1 && frets[0] < 0 && frets[1] > 0 ? 1 : -1;

    /// <summary>Whether a note that a finger across these slots would stop sounds between them.</summary>
    public static bool LowerNoteBetween(ReadOnlySpan<int> frets, int from, int to)
    {
        for (var i = from + 1; i < to; i++)
            if (frets[i] >= 0 && frets[i] < frets[from])
                return true;
        return false;
    }

    // Each set of fingers of the right size, dealt out in order; two groups on one fret also the other way round.
    private static void Deal(List<byte[]> found, ReadOnlySpan<int> frets, ReadOnlySpan<int> order, int joined, int groups, int thumbSlot)
    {
        Span<byte> fingers = stackalloc byte[4];
        Span<int> fret = stackalloc int[4];
        for (var set = 0; set < 16; set++)
        {
            if (BitOperations.PopCount((uint)set) != groups)
                continue;
            var count = 0;
            for (var f = 1; f <= 4; f++)
                if ((set & (1 << (f - 1))) != 0)
                    fingers[count++] = (byte)f;
            var group = -1;
            var candidate = new byte[frets.Length];
            for (var k = 0; k < order.Length; k++)
            {
                if ((joined & (1 << k)) == 0)
                    fret[++group] = frets[order[k]];
                candidate[order[k]] = fingers[group];
            }
            if (thumbSlot >= 0)
                candidate[thumbSlot] = ThumbMark;
            found.Add(candidate);
            for (var g = 1; g < groups; g++)
                if (fret[g] == fret[g - 1] && (g < 2 || fret[g - 2] != fret[g]) && (g + 1 >= groups || fret[g + 1] != fret[g]))
                    found.Add(Swapped(candidate, fingers[g - 1], fingers[g]));
        }
    }

    /// <summary>How the thumb is written in a candidate.</summary>
    public const byte ThumbMark = 5;

    /// <summary>A candidate as players read it.</summary>
    public static Fingers Named(ReadOnlySpan<byte> candidate)
    {
        var slots = ImmutableArray.CreateBuilder<Finger?>(candidate.Length);
        foreach (var f in candidate)
            slots.Add(f == 0 ? null : f == ThumbMark ? Finger.Thumb : (Finger)f);
        return new(slots.MoveToImmutable());
    }

    private static byte[] Swapped(byte[] candidate, byte one, byte other)
    {
        var copy = (byte[])candidate.Clone();
        for (var i = 0; i < copy.Length; i++)
            copy[i] = copy[i] == one ? other : copy[i] == other ? one : copy[i];
        return copy;
    }
}
