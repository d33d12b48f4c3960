// The best left-hand fingers of a voicing, or the proof that there are none.
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Fretboard.Fingering;

/// <summary>Why no fingering exists.</summary>
public enum FingeringObstacle
{
    /// <summary>More fingers are needed than a hand has, barres counted.</summary>
    TooManyFingers,
    /// <summary>Whatever fingers are taken, two of them lie too far apart.</summary>
    TooFar,
    /// <summary>The voicing can be held, but not with the fingers that are given.</summary>
    GivenFingers,
}

/// <summary>The proof that a voicing cannot be held: every fingering was tried.</summary>
/// <param name="Obstacle">What stands in the way.</param>
/// <param name="FingersNeeded">The fewest fingers that the voicing takes, with barres.</param>
/// <param name="Limiting">For <see cref="FingeringObstacle.TooFar"/>: the pair and its millimetres in the fingering that comes nearest; else null.</param>
public sealed record NoFingering(FingeringObstacle Obstacle, int FingersNeeded, Stretch? Limiting)
{
    /// <summary>One plain sentence.</summary>
    public string Message => Obstacle switch
    {
        FingeringObstacle.TooManyFingers =>
            $"This grip takes {FingersNeeded} fingers even where one finger lies across several strings; a hand has {Grip.Fingers}.",
        FingeringObstacle.TooFar when Limiting is { } far =>
            $"No fingering reaches: even in the nearest one the {far.Pair} lie {far.Millimetres:0} mm apart, and this hand reaches {far.Limit:0} mm there.",
        _ => "No fingering of this grip keeps the fingers that are written.",
    };
}

/// <summary>The answer: fingers, or why there are none.</summary>
/// <param name="Best">The best fingering, or null.</param>
/// <param name="Cost">Its cost by <see cref="FingeringTerms.Table"/>; comparable between fingerings of one voicing only.</param>
/// <param name="None">The proof, where <paramref name="Best"/> is null.</param>
public sealed record FingeringAnswer(Fingers? Best, double Cost, NoFingering? None);

/// <summary>Fingers for voicings.</summary>
public static class FingeringSearch
{
    // Ours: a stretch beyond comfort by a tenth is worse than a finger that the table finds out of place.
    private const double BeyondComfort = 20;

    /// <summary>The best fingering of a voicing for a hand, or the proof that there is none.</summary>
    /// <param name="neck">Where the frets lie.</param>
    /// <param name="hand">Whose reach counts.</param>
    /// <param name="voicing">The grip, up to nine strings.</param>
    /// <param name="given">Fingers that must be kept; a null slot leaves the string open to any. With a thumb in it, the thumb is used.</param>
    /// <returns>Without <paramref name="given"/> the thumb comes over the neck only where four fingers alone cannot reach.</returns>
    public static FingeringAnswer Best(Neck neck, Hand hand, Voicing voicing, Fingers? given = null)
    {
        var needed = voicing.FingersNeeded();
        var thumbGiven = given?.Slots.Contains(Finger.Thumb) == true;
        var tried = Try(neck, hand, voicing, given, thumbGiven);
        if (tried.Best is null && !thumbGiven && given is null && ThumbCanCome(voicing) && Try(neck, hand, voicing, given, thumb: true) is { Best: not null } over)
            tried = over;
        if (tried.Best is { } best)
            return new(FingeringCandidates.Named(best), tried.Cost, null);
        var obstacle = tried.Nearest is not null ? FingeringObstacle.TooFar
            : needed > Grip.Fingers ? FingeringObstacle.TooManyFingers : FingeringObstacle.GivenFingers;
        var limiting = tried.Nearest is { } near ? Stretch.Of(neck, hand, voicing, FingeringCandidates.Named(near)) : null;
        return new(null, double.PositiveInfinity, new(obstacle, needed, limiting));
    }

    /// <summary>All fingerings that reach, best first; with the thumb over the neck only where there is none without.</summary>
    internal static IReadOnlyList<(byte[] Fingers, double Cost)> All(Neck neck, Hand hand, Voicing voicing)
    {
        int[] frets = [.. voicing.Slots.Select(f => f ?? -1)];
        foreach (var thumb in ThumbCanCome(voicing) ? new[] { false, true } : [false])
        {
            var found = new List<(byte[] Fingers, double Cost)>();
            foreach (var candidate in FingeringCandidates.Of(voicing, thumb))
                if (Strain(neck, hand, frets, candidate) is (<= 1, var comfort))
                    found.Add((candidate, FingeringTerms.Cost(frets, candidate) + BeyondComfort * Math.Max(0, comfort - 1)));
            if (found.Count > 0)
                return [.. found.OrderBy(f => f.Cost)];
        }
        return [];
    }

    private static (byte[]? Best, double Cost, byte[]? Nearest) Try(Neck neck, Hand hand, Voicing voicing, Fingers? given, bool thumb)
    {
        Span<int> frets = stackalloc int[voicing.Strings];
        for (var i = 0; i < frets.Length; i++)
            frets[i] = voicing.Slots[i] ?? -1;
        byte[]? best = null, nearest = null;
        double cost = double.PositiveInfinity, least = double.PositiveInfinity;
        foreach (var candidate in FingeringCandidates.Of(voicing, thumb))
        {
            if (given is not null && !Keeps(candidate, given))
                continue;
            var (limit, comfort) = Strain(neck, hand, frets, candidate);
            if (limit > 1)
            {
                if (limit < least)
                    (nearest, least) = (candidate, limit);
                continue;
            }
            var mine = FingeringTerms.Cost(frets, candidate) + BeyondComfort * Math.Max(0, comfort - 1);
            if (mine < cost)
                (best, cost) = (candidate, mine);
        }
        return (best, cost, nearest);
    }

    // Over the neck the thumb lies beside the first finger or behind it, never two frets ahead of the hand (common practice).
    private static bool ThumbCanCome(Voicing voicing)
    {
        int[] frets = [.. voicing.Slots.Select(f => f ?? -1)];
        return FingeringCandidates.ThumbSlot(frets) is >= 0 and var held && frets.Where((f, i) => f > 0 && i != held).DefaultIfEmpty(frets[held]).Min() is var lowest && frets[held] <= lowest + 1;
    }

    private static bool Keeps(byte[] candidate, Fingers given)
    {
        for (var i = 0; i < candidate.Length && i < given.Slots.Length; i++)
            if (given.Slots[i] is { } finger && candidate[i] != (finger == Finger.Thumb ? FingeringCandidates.ThumbMark : (byte)finger))
                return false;
        return true;
    }

    // The largest share of the limit, and of comfort, that any pair takes.
    private static (double Limit, double Comfort) Strain(Neck neck, Hand hand, ReadOnlySpan<int> frets, ReadOnlySpan<byte> candidate)
    {
        double limit = 0, comfort = 0;
        for (var i = 0; i < candidate.Length; i++)
            for (var j = i + 1; j < candidate.Length; j++)
            {
                if (candidate[i] == 0 || candidate[j] == 0 || candidate[i] == candidate[j] || frets[i] == frets[j])
                    continue;
                var (a, b) = ((Finger)(candidate[i] % FingeringCandidates.ThumbMark), (Finger)(candidate[j] % FingeringCandidates.ThumbMark));
                var mm = neck.Distance(frets[i], frets[j]);
                limit = Math.Max(limit, mm / hand.Limit(a, b));
                comfort = Math.Max(comfort, mm / hand.Comfortable(a, b));
            }
        return (limit, comfort);
    }
}
