// What to practise, as lines of plain text: the same for the command line and for editors.
using ChordLang.Checks.Practice;
using ChordLang.Fretboard.Hands;

namespace ChordLang.Features.Practice;

/// <summary>Tells spots to practise.</summary>
public static class PracticeLines
{
    /// <summary>The spots, hardest first, with reasons and hints, and the usual caution as the last line.</summary>
    public static IEnumerable<string> Of(IReadOnlyList<PracticeSpot> spots)
    {
        if (spots.Count == 0)
            yield return "Nothing in it has to be held by the left hand.";
        for (var i = 0; i < spots.Count; i++)
        {
            yield return $"{i + 1}. {Bars(spots[i])}, likely {(i == 0 ? "the hardest" : "next")} (score {spots[i].Score:0.0})";
            foreach (var reason in spots[i].Reasons)
                yield return $"   {reason}";
            yield return $"   {spots[i].Hint}";
        }
        yield return Caution.Text;
    }

    /// <summary>The bars of a spot in words: <c>Bars 2, 6 and 9</c>.</summary>
    public static string Bars(PracticeSpot spot) => spot.Bars.Length == 1 ? (spot.Bars[0] == 0 ? "Pickup" : $"Bar {spot.Bars[0]}")
        : $"Bars {string.Join(", ", spot.Bars.Take(spot.Bars.Length - 1))} and {spot.Bars[^1]}";
}
