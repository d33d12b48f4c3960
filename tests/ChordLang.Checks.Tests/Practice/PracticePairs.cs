// Twenty pairs of bars of our own: any player takes the first for the harder of the two (common practice).
namespace ChordLang.Checks.Tests.Practice;

/// <summary>A pair.</summary>
/// <param name="Name">What makes the first harder.</param>
/// <param name="Harder">Its row, or rows.</param>
/// <param name="Easier">The other's.</param>
/// <param name="Head">Settings for both.</param>
internal sealed record PracticePair(string Name, string Harder, string Easier, string Head = "tempo 80\n");

internal static class PracticePairs
{
    public static readonly PracticePair[] All =
    [
        new("a grip over six frets against one over three", "1 x-3-x-4-7-x", "1 x-3-x-4-5-x"),
        new("a wide grip near the nut against the same frets high up", "1 1-x-3-2-5-x", "1 10-x-12-11-14-x"),
        new("four fingers against an open chord", "1 x-3-5-4-6-x", "1 x-0-2-0-1-0"),
        new("a leap of nine frets against none", "1 5@1   3 14@1", "1 5@1   3 7@1"),
        new("the same leap in an eighth against in half a bar", "1 5@1   1& 14@1   2 5@1", "1 5@1   3 14@1"),
        new("two leaps against one", "1 3@2   2 12@2   3 3@2", "1 3@2   3 12@2"),
        new("a chord a quarter against one a bar", "1 x-3-5-4-5-x   2 x-5-7-5-6-x   3 x-2-4-2-4-x   4 x-4-5-3-5-x", "1 x-3-5-4-5-x"),
        new("new grips against the same grip again", "1 x-3-5-4-5-x   3 x-x-3-4-3-4", "1 x-3-5-4-5-x   3 x-3-5-4-5-x"),
        new("eighths against quarters", "1 to 4& 5@1 7@1 8@1 7@1 5@1 8@2 6@2 5@2", "1 5@1   2 7@1   3 8@1   4 7@1"),
        new("sixteenths against eighths", "1 to 2a 5@2 6@2 8@2 5@1 7@1 8@1 7@1 5@1", "1 to 2& 5@2 6@2 8@2 5@1"),
        new("a note that rings over three others against one that does not", "top: 1 8@1 ring\n    low: 2 7@4   3 5@4   4 5@3", "top: 1 8@1\n    low: 2 7@4   3 5@4   4 5@3"),
        new("ringing through the bar against until count 3", "top: 1 8@1 ring\n    low: 2 7@4   3 5@4   4 5@3", "top: 1 8@1 ring until 3\n    low: 2 7@4   3 5@4   4 5@3"),
        new("a fretted note that rings against an open string that rings", "top: 1 5@2 ring\n    low: 2 7@4   3 5@4", "top: 1 0@1 ring\n    low: 2 7@4   3 5@4"),
        new("two notes that ring against one", "top: 1 5@1+5@2 ring\n    low: 2 7@4   3 5@4", "top: 1 5@1+5@2 ring@1\n    low: 2 7@4   3 5@4"),
        new("a grip with a moving top against the grip alone", "top: 2 8@1   3 7@1   4 5@1\n    low: 1 x-x-7-5-6-x ring", "low: 1 x-x-7-5-6-x ring"),
        new("fretted against open strings", "1 7@6   2 7@5   3 9@4   4 9@3", "1 0@6   2 0@5   3 0@4   4 0@3"),
        new("down the neck in jumps against in place", "1 12@1   2 8@1   3 3@1   4 10@1", "1 12@1   2 10@1   3 9@1   4 10@1"),
        new("triplets against quarters", "1 5@2   1trip 6@2   1let 8@2   2 5@1   2trip 7@1   2let 8@1   3 7@1", "1 5@2   2 6@2   3 8@2"),
        new("a full drop grip and a shift against the shift alone", "1 x-3-5-4-5-x   3 x-8-10-9-10-x", "1 3@5   3 8@5"),
        new("three fretted notes together against one", "1 x-x-4-5-7-x", "1 x-x-x-5-x-x"),
    ];
}
