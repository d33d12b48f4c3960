// Forty passages of our own with notes that ring: twenty that a player can keep ringing, and twenty that break, each with the event that breaks it.
namespace ChordLang.Checks.Tests.Ringing;

/// <summary>A passage.</summary>
/// <param name="Name">What it shows.</param>
/// <param name="Text">Its text.</param>
/// <param name="Code">The finding, or null where it rings as written.</param>
/// <param name="Bar">The bar of the event that breaks it.</param>
/// <param name="Count">The count of that event.</param>
internal sealed record Passage(string Name, string Text, string? Code = null, int Bar = 0, string Count = "");

internal static class RingingPassages
{
    private const string S = "ring-cut-by-string", F = "ring-cut-by-finger";

    public static readonly Passage[] All =
    [
        new("top note over a walking inner voice", "| N.C.\n    top: 1 5@1 ring\n    low: 2 5@4   3 7@3   4 5@3\n"),
        new("struck again exactly where the ring is over", "| N.C.\n    top: 1 5@1 ring until 3\n    low: 1 0@5   3 3@1   4 0@5\n"),
        new("open bass over the bar line", "| N.C.\n    low: 1 0@6 ring over\n\n| N.C.\n    top: 1 4@3   2 5@2   3 4@1\n"),
        new("tied over the bar line", "| N.C.\n    top: 1 rest   3 3@2\n    low: 1 0@4\n\n| N.C.\n    top: 1 tied\n    low: 1 0@5   2 2@4   3 0@5\n"),
        new("open string bells", "| N.C.\n    1 0@1 ring   1& 5@2   2 7@3   2& 0@2   3 4@3\n"),
        new("arpeggio that comes back to its strings, all ringing", "| N.C.\n    1 3@5 ring   1& 2@4 ring   2 0@3 ring   2& 1@2 ring   3 2@5 ring   3& 0@4 ring   4 0@3 ring\n"),
        new("the same note again in its own voice", "| N.C.\n    1 2@3 ring   2 0@2   3 2@3   4 0@1\n"),
        new("barre below a moving top", "| N.C.\n    low: 1 5-x-5-5-5-x ring\n    top: 2 5@1   3 8@1   4 7@1\n"),
        new("one note of the chord rings, the others are struck again", "| N.C.\n    1 x-3-2-0-1-0 ring@1   3 x-3-2-0-x-x\n"),
        new("low D under a melody high up", "strings D2 A2 D3 G3 B3 E4\n\n| N.C.\n    low: 1 0@6 ring\n    top: 1 12@1   2 14@1   3 15@1\n"),
        new("capo, open strings ring", "capo 3\n\n| N.C.\n    low: 1 0@5 ring   3 0@4 ring\n    top: 2 1@2   3 3@2\n"),
        new("compound time, until the second beat", "meter 6/8\n\n| N.C.\n    low: 1 0@5 ring until 4   4 0@5\n    top: 1 1@2   2 0@1   3 1@2   5 0@1\n"),
        new("a harmonic needs no finger to last", "| N.C.\n    top: 1 12@1 harmonic ring\n    low: 2 1@5   3 3@4\n"),
        new("the written fingers can stay", "| N.C.\n    top: 1 5@1 finger 1 ring\n    low: 2 7@4 finger 3   3 8@3 finger 4\n"),
        new("a bar repeated strikes its strings when the ring is over", "| N.C.\n    1 3@6 ring   2 0@4   3 0@3\n\n| %\n"),
        new("until the next one comes round", "| N.C.\n    1 0@4   3 3@6 ring until 1\n\n| N.C.\n    1 5@6   2 4@4\n"),
        new("seventh string under fretted notes", "strings B1 E2 A2 D3 G3 B3 E4\n\n| N.C.\n    low: 1 0@7 ring\n    top: 1 9@2   2 7@2   3 9@2\n"),
        new("the thumb keeps the bass", "| N.C.\n    low: 1 3@6 finger T ring\n    top: 2 x-x-4-4-3-x   4 x-x-4-4-2-x\n"),
        new("high on the neck the same frets lie close", "| N.C.\n    top: 1 13@1 ring\n    low: 3 18@5\n"),
        new("pitches with their strings, a tie within the bar", "| N.C.\n    top: 1 G4@1   3 tied   4 A4@1\n    low: 2 E3@4   3 G3@3\n"),

        new("the bass voice takes the string of the top note", "| N.C.\n    top: 1 5@1 ring\n    low: 1 0@5   3 3@1\n", S, 1, "3"),
        new("an open string is fretted too early", "| N.C.\n    top: 1 0@2 ring until 4\n    low: 1 0@5   2& 1@2   3 0@1\n", S, 1, "2&"),
        new("ring over is cut in the next bar", "| N.C.\n    low: 1 3@5 ring over\n\n| N.C.\n    top: 1 0@2   2 2@5   3 0@1\n", S, 2, "2"),
        new("a tie is cut by the other voice", "| N.C.\n    top: 1 0@2   3 3@2\n\n| N.C.\n    top: 1 tied\n    low: 1 0@5   1& 1@2   2 0@4\n", S, 2, "1&"),
        new("one note of a chord, and the bass moves on its string", "| N.C.\n    1 x-3-2-0-1-0 ring@5   3 2@5\n", S, 1, "3"),
        new("a line comes back to the string", "| N.C.\n    1 3@2 ring   2 0@1   3 1@2\n", S, 1, "3"),
        new("a dead note stops it", "| N.C.\n    top: 1 5@3 ring\n    low: 2 5@3 dead\n", S, 1, "2"),
        new("compound time", "meter 6/8\n\n| N.C.\n    low: 1 3@5 ring\n    top: 2 0@3   3 1@2   5 2@5\n", S, 1, "5"),
        new("seventh string", "strings B1 E2 A2 D3 G3 B3 E4\n\n| N.C.\n    low: 1 0@7 ring until 4\n    top: 2 9@2   3 3@7\n", S, 1, "3"),
        new("on a triplet", "| N.C.\n    top: 1 1@2 ring\n    low: 2 0@3   2trip 3@2   2let 0@3\n", S, 1, "2trip"),
        new("the same pitch struck by another voice", "| N.C.\n    top: 1 0@2 ring\n    low: 3 0@2+0@4\n", S, 1, "3"),
        new("too far away", "| N.C.\n    top: 1 10@1 ring\n    low: 3 2@5\n", F, 1, "3"),
        new("one finger too many", "| N.C.\n    top: 1 8@1 ring\n    low: 2 x-3-5-4-5-x\n", F, 1, "2"),
        new("a barre would stop the open string", "| N.C.\n    top: 1 0@3 ring\n    low: 3 1-3-2-x-1-4\n", F, 1, "3"),
        new("the written finger is wanted elsewhere", "| N.C.\n    top: 1 5@1 finger 4 ring\n    low: 3 8@3 finger 4\n", F, 1, "3"),
        new("a small declared hand", "reach 12 to 15\n\n| N.C.\n    top: 1 5@1 ring\n    low: 3 9@4\n", F, 1, "3"),
        new("near the nut the same frets lie far apart", "| N.C.\n    top: 1 1@1 ring\n    low: 3 6@5\n", F, 1, "3"),
        new("over the bar line the hand has moved up", "| N.C.\n    low: 1 0@6   3 2@6 ring over\n\n| N.C.\n    top: 1 9@2   2 10@2\n", F, 2, "1"),
        new("a tie, and the other voice leaves the position", "| N.C.\n    top: 1 0@1   3 3@1\n\n| N.C.\n    top: 1 tied\n    low: 1 0@5   2 12@4\n", F, 2, "2"),
        new("a chord rings, the answer lies far above", "| N.C.\n    low: 1 3-x-4-x-x-x ring\n    top: 3 12@1\n", F, 1, "3"),
    ];
}
