// Walks over the base and both sides at once and says, unit by unit, what the result holds.
using System.Collections.Immutable;
using ChordLang.Features.Comparing;

namespace ChordLang.Features.Merging;

/// <summary>Who changed a part.</summary>
internal enum MergeSide { Neither, Ours, Theirs, Both }

/// <summary>A part of the result.</summary>
/// <param name="Base">The units of the base that it comes from; none for what was put in.</param>
/// <param name="Ours">Ours.</param>
/// <param name="Theirs">Theirs.</param>
/// <param name="Side">Who changed it.</param>
/// <param name="Text">What it becomes; null where that is in doubt.</param>
/// <param name="Doubt">Why it is in doubt.</param>
internal sealed record MergePart(
    ImmutableArray<MergeUnit> Base, ImmutableArray<MergeUnit> Ours, ImmutableArray<MergeUnit> Theirs, MergeSide Side, string? Text, string? Doubt)
{
    /// <summary>The parts of a merge, in order.</summary>
    public static ImmutableArray<MergePart> Of(ImmutableArray<MergeUnit> old, ImmutableArray<MergeUnit> ours, ImmutableArray<MergeUnit> theirs)
    {
        var (left, right) = (Found(old, ours), Found(old, theirs));
        var parts = ImmutableArray.CreateBuilder<MergePart>();
        var (o, t) = (0, 0);
        for (var b = 0; b <= old.Length; b++)
        {
            // What a side put in stands before the next unit that it kept.
            var (oursNext, theirsNext) = (Next(left, b, ours.Length), Next(right, b, theirs.Length));
            if (oursNext > o || theirsNext > t)
                parts.Add(PutIn(ours[o..oursNext], theirs[t..theirsNext]));
            (o, t) = (Math.Max(o, oursNext), Math.Max(t, theirsNext));
            if (b == old.Length)
                break;
            var (mine, other) = (left[b] is { } i ? ours[i] : null, right[b] is { } j ? theirs[j] : null);
            if (mine is not null || other is not null)
                parts.Add(Kept(old[b], mine, other));
            (o, t) = (left[b] + 1 ?? o, right[b] + 1 ?? t);
        }
        return parts.ToImmutable();
    }

    private static int?[] Found(ImmutableArray<MergeUnit> old, ImmutableArray<MergeUnit> now)
    {
        var found = new int?[old.Length];
        foreach (var (i, j) in Alignment.Of(old.Length, now.Length, (i, j) => old[i].Plain == now[j].Plain, (i, j) => old[i].Likeness(now[j])))
            found[i] = j;
        return found;
    }

    private static int Next(int?[] found, int from, int end)
    {
        for (var b = from; b < found.Length; b++)
            if (found[b] is { } at)
                return at;
        return end;
    }

    private static MergePart PutIn(ImmutableArray<MergeUnit> ours, ImmutableArray<MergeUnit> theirs)
    {
        if (theirs.IsEmpty || ours.Select(u => u.Plain).SequenceEqual(theirs.Select(u => u.Plain)))
            return new([], ours, theirs, theirs.IsEmpty ? MergeSide.Ours : MergeSide.Both, Whole(ours), null);
        return ours.IsEmpty ? new([], ours, theirs, MergeSide.Theirs, Whole(theirs), null)
            : new([], ours, theirs, MergeSide.Both, null, "both sides put something in here, and nobody can tell which comes first");
    }

    private static MergePart Kept(MergeUnit old, MergeUnit? ours, MergeUnit? theirs)
    {
        ImmutableArray<MergeUnit> b = [old], o = ours is null ? [] : [ours], t = theirs is null ? [] : [theirs];
        if (ours is null || theirs is null)
            return (ours ?? theirs)!.Plain == old.Plain ? new(b, o, t, ours is null ? MergeSide.Ours : MergeSide.Theirs, "", null)
                : new(b, o, t, MergeSide.Both, null, $"one side took out {What(old)} that the other changed");
        if (ours.Plain == theirs.Plain)
            return new(b, o, t, ours.Plain == old.Plain ? MergeSide.Neither : MergeSide.Both, ours.Text != old.Text ? ours.Text : theirs.Text, null);
        if (ours.Plain == old.Plain)
            return new(b, o, t, MergeSide.Theirs, theirs.Text, null);
        if (theirs.Plain == old.Plain)
            return new(b, o, t, MergeSide.Ours, ours.Text, null);
        if (!old.IsBar)
            return new(b, o, t, MergeSide.Both, null, "both sides changed this line");
        var joined = BarJoin.Join(old, ours, theirs);
        return new(b, o, t, MergeSide.Both, joined.Text, joined.Doubt);
    }

    private static string What(MergeUnit unit) => unit.IsBar ? "a bar" : "a line";

    private static string Whole(ImmutableArray<MergeUnit> units) => string.Concat(units.Select(u => u.Text));
}
