// One lesson and the pairs of changes that two people make to it.
namespace ChordLang.Server.Tests.Git;

/// <summary>A merge.</summary>
/// <param name="Name">What happens on the two sides.</param>
/// <param name="Ours">What ours replaces, by what.</param>
/// <param name="Theirs">What theirs replaces, by what.</param>
/// <param name="Doubt">Words of the reason where it has to be refused; null where it is clean.</param>
/// <param name="Result">What the clean result replaces in the base, where that is not both after each other.</param>
internal sealed record MergeCase(string Name, (string, string)[] Ours, (string, string)[] Theirs, string? Doubt = null, (string, string)[]? Result = null)
{
    /// <summary>The lesson that both start from.</summary>
    public const string Base = """
        title   Two Lamps
        key     C major
        meter   4/4

        shape low = x-3-2-3-3-x

        section Opening

        | Cmaj7
            top:  1 E4   3 G4
            low:  1 x-3-2-4-x-x

        | Am7
            top:  1 C5   2& A4   4 E4
            low:  1 5-x-5-5-x-x

        | Dm7
            top:  1 F4   3 A4

        | G7
            top:  1 B4   3 D5

        section Bridge

        | C9
            low:  1 low

        | F9
            low:  1 x-8-7-8-8-x

        | Em7 | A7 | Dm9 | G9

        """;

    private const string First = "| Cmaj7\n    top:  1 E4   3 G4\n    low:  1 x-3-2-4-x-x\n", Third = "| Dm7\n    top:  1 F4   3 A4\n", Sixth = "| F9\n    low:  1 x-8-7-8-8-x\n";

    /// <summary>All cases.</summary>
    public static IReadOnlyList<MergeCase> All { get; } =
    [
        new("two bars", [("3 G4", "3 A4")], [("3 D5", "3 F5")]),
        new("two counts of one voice", [("1 C5", "1 D5")], [("4 E4", "4 G4")]),
        new("two voices of one bar", [("3 G4", "3 A4")], [("x-3-2-4-x-x", "x-3-x-4-5-x")]),
        new("a bar put in above an edit", [("| Am7\n", "| Bm7b5\n    top:  1 D5   3 B4\n\n| Am7\n")], [("3 D5", "3 F5")]),
        new("two bars put in", [("| Am7\n", "| Bm7b5\n    top:  1 D5   3 B4\n\n| Am7\n")], [("| Em7 |", "| Gm7\n    low:  1 x-x-5-7-6-6\n\n| Em7 |")]),
        new("a bar taken out", [(Third + "\n", "")], [("3 G4", "3 A4")]),
        new("a bar moved", [(Sixth + "\n", ""), ("section Bridge\n\n", "section Bridge\n\n" + Sixth + "\n")], [("3 G4", "3 A4")]),
        new("reformatted and edited", [("    top:  1 E4   3 G4\n    low:  1 x", "  top: 1 E4 3 G4\n  low: 1 x")], [("3 G4", "3 A4")], null, [("3 G4", "3 A4")]),
        new("transposed and re-fingered", [("1 F4   3 A4", "1 G4   3 B4")], [("1 x-8-7-8-8-x", "1 x-8-7-8-8-x fingers x-2-1-3-4-x")]),
        new("fingers and melody of one bar", [("5-x-5-5-x-x", "5-x-5-5-x-x fingers 2-x-3-4-x-x")], [("4 E4", "4 G4")]),
        new("the same change on both sides", [("3 G4", "3 A4")], [("3 G4", "3 A4")], null, [("3 G4", "3 A4")]),
        new("teaching text and an edit", [("x-3-2-4-x-x\n", "x-3-2-4-x-x\n> Let it ring.\n")], [("4 E4", "4 G4")]),
        new("a chord and another bar", [("| Dm7\n", "| Dm9\n")], [("3 D5", "3 F5")]),
        new("two chords on one line", [("| Em7 |", "| Em9 |")], [("| A7 |", "| A13 |")]),
        new("a voice put in and another changed", [("3 A4\n", "3 A4\n    mid:  1 D4\n")], [("1 F4   3 A4", "1 F4   3 C5")], null, [("3 A4\n", "3 C5\n    mid:  1 D4\n")]),
        new("a note put in and another changed", [("1 F4   3 A4", "1 F4   2 E4   3 A4")], [("1 F4   3 A4", "1 F4   3 C5")], null, [("1 F4   3 A4", "1 F4   2 E4   3 C5")]),
        new("the title and a bar", [("Two Lamps", "Three Lamps")], [("3 D5", "3 F5")]),
        new("a section put in at the end", [("| Dm9 | G9\n", "| Dm9 | G9\n\nsection Coda\n\n| C6\n    low:  1 x-3-2-2-1-x\n")], [("3 G4", "3 A4")]),

        new("one count on both sides", [("1 C5", "1 D5")], [("1 C5", "1 B4")], "both sides changed count 1 of the voice top"),
        new("a bar repeated by %", [("3 G4", "3 A4")], [("x-3-2-4-x-x\n", "x-3-2-4-x-x\n\n| %\n")], "it repeats (%) a bar that the other side changed"),
        new("a chord that lasts on", [("| Dm7\n", "| D7\n")], [("3 A4\n", "3 A4\n\n|\n    top:  1 A4\n")], "its chord lasts on from a bar that the other side changed"),
        new("a tie over the bar line", [("3 A4", "3 C5")], [("1 B4", "1 tied")], "it goes on (tied, again, ring)"),
        new("again over the bar line", [("3 A4", "3 C5")], [("1 B4", "1 again")], "it goes on (tied, again, ring)"),
        new("a note that rings over", [("3 D5", "3 F5")], [("3 A4", "3 A4 ring over")], "something rings into it (ring over)"),
        new("the key", [("3 D5", "3 F5")], [("key     C major", "key     G major")], "the other side changed the key"),
        new("the meter", [("3 D5", "3 F5")], [("meter   4/4", "meter   5/4")], "the other side changed the meter"),
        new("a shape", [("1 low", "1 low   3 again")], [("= x-3-2-3-3-x", "= x-3-2-3-5-x")], "the other side changed a shape that it uses"),
        new("a voice of another name", [("1 x-3-2-4-x-x", "1 x-3-x-4-5-x")], [("low: ", "bass:")], "one side took out the voice low, which the other changed"),
        new("a bar for a voice of another name", [("| Em7 |", "| Gm7\n    low:  1 x-x-5-7-6-6\n\n| Em7 |")], [("low: ", "bass:")], "the voice low, which the other side renamed"),
        new("taken out and changed", [(Third + "\n", "")], [("3 A4", "3 C5")], "one side took out a bar that the other changed"),
        new("two bars at one place", [("\n" + First, "\n| Gm7\n    top:  1 Bb4\n\n" + First)], [("\n" + First, "\n| F6\n    top:  1 C5\n\n" + First)], "both sides put something in here"),
        new("transposed two ways", [("1 F4   3 A4", "1 G4   3 B4")], [("1 F4   3 A4", "1 E4   3 G4")], "both sides changed count 1 of the voice top"),
        new("a name against a voicing", [("| G7\n", "| Gmaj7\n")], [("3 D5\n", "3 D5\n    low:  1 3-x-3-4-x-x\n")], "joined, they give name-"),
        new("again inside a row", [("1 F4   3 A4", "1 G4   3 A4")], [("1 F4   3 A4", "1 F4   3 again")], "leans on a sound that the other side changed"),
    ];

    /// <summary>The text of one side.</summary>
    public static string With((string Old, string New)[] changes)
    {
        var text = Base;
        foreach (var (old, now) in changes)
        {
            Assert.Contains(old, text, StringComparison.Ordinal);
            text = text.Replace(old, now, StringComparison.Ordinal);
        }
        return text;
    }

    /// <summary>The result where it is clean.</summary>
    public string Expected => With(Result ?? [.. Ours, .. Theirs]);
}
