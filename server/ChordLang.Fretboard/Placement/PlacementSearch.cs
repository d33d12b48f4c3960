// The best placement of a whole passage at once: a beam over the ways to play each onset, bounded in memory.
using System.Collections.Immutable;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;

namespace ChordLang.Fretboard.Placement;

/// <summary>Places passages on a neck.</summary>
public static class PlacementSearch
{
    /// <summary>The best placements of a passage, best first, at least one, at most <paramref name="most"/>, all different.</summary>
    /// <param name="neck">Where the pitches lie.</param>
    /// <param name="hand">Whose reach counts.</param>
    /// <param name="onsets">The passage, in order of time.</param>
    /// <param name="most">How many are wanted, up to the width of the beam.</param>
    /// <returns>Pitches are exact and no two notes of an onset share a string; a note without a place has null for string and fret.</returns>
    public static ImmutableArray<Placement> Best(Neck neck, Hand hand, ImmutableArray<OnsetToPlace> onsets, int most = 1) =>
        PlacementRun.Of(neck, hand, onsets).Best(most);

    /// <summary>
    /// Other placements of a stretch of a passage, cheapest first: in other positions, each with notes on other strings than the best and than
    /// one another, while what stands around it stays as the best placement has it. Strings that are given stay given.
    /// </summary>
    /// <param name="best">The passage with its best placement.</param>
    /// <param name="from">The first onset of the stretch.</param>
    /// <param name="count">How many onsets.</param>
    /// <param name="most">How many placements at most.</param>
    /// <returns>
    /// Placements of the onsets of the stretch alone; their costs are what they cost more than the best. Those are left out that cost out of
    /// proportion, or that no hand holds where it holds the best.
    /// </returns>
    public static OtherPlacements Alternatives(PlacementRun best, int from, int count, int most = 3)
    {
        const int around = 8; // onsets before and behind that a change of position is felt in
        var (first, last) = (Math.Max(0, from - around), Math.Min(best.Onsets.Length, from + count + around));
        if (count <= 0 || from < 0 || from + count > best.Onsets.Length)
            return new([], 0);
        var chosen = best.Best()[0];
        var stretch = Enumerable.Range(first, last - first).Select(i => i >= from && i < from + count ? best.Onsets[i]
            : best.Onsets[i] with { Position = null, Notes = [.. best.Onsets[i].Notes.Zip(chosen.Onsets[i].Notes, (n, p) => n with { String = p.String })] }).ToImmutableArray();
        double Cost(Placement of) => PlacementRun.Of(best.Neck, best.Hand,
            [.. stretch.Select((o, i) => o with { Position = null, Notes = [.. o.Notes.Zip(of.Onsets[i].Notes, (n, p) => n with { String = p.String })] })]).Best()[0].Cost;
        var floor = Cost(new([.. chosen.Onsets.Skip(first).Take(last - first)], 0, []));
        var found = new Dictionary<string, Placement>(StringComparer.Ordinal) { [Places(chosen.Onsets.Skip(from).Take(count))] = chosen };
        var others = new List<Placement>();
        for (var position = 1; position <= Surroundings.Positions && position <= best.Neck.HighestFret; position++)
        {
            var asked = stretch.Select((o, i) => first + i >= from && first + i < from + count ? o with { Position = position } : o).ToImmutableArray();
            var placed = PlacementRun.Of(best.Neck, best.Hand, asked).Best()[0];
            var own = placed.Onsets.Skip(from - first).Take(count).ToImmutableArray();
            if (found.TryAdd(Places(own), placed))
                others.Add(new(own, Cost(placed) - floor, []));
        }
        var original = chosen.Onsets.Skip(from).Take(count).ToList();
        var near = others.Where(p => p.Cost <= Proportion * Math.Max(FewNotes, Moved(original, p)) && p.Onsets.Count(o => o.Unheld) <= original.Count(o => o.Unheld)).ToList();
        return new([.. near.OrderBy(p => p.Cost).Take(most)], others.Count - near.Count);
    }

    // Ours. The weights are logarithms of odds: players take such a placement, by the fit, e squared (7.4) times less often for each note that it moves. Beyond
    // that it is no choice any more, but a curiosity far up the neck.
    private const double Proportion = 2;

    // A single note may cost as much as two: the hand moves for it there and back.
    private const int FewNotes = 2;

    private static int Moved(List<PlacedOnset> from, Placement to) =>
        from.Zip(to.Onsets, (a, b) => a.Notes.Zip(b.Notes, (x, y) => x.String != y.String).Count(moved => moved)).Sum();

    private static string Places(IEnumerable<PlacedOnset> onsets) => string.Join(' ', onsets.SelectMany(o => o.Notes).Select(n => n.String));
}
