// Pieces that might have been typed: by the grammar, mostly right, with slips here and there.
using ChordLang.Testing;

namespace ChordLang.Fuzz.Generating;

/// <summary>Makes pieces, lines and words of the notation.</summary>
internal static class Pieces
{
    private static readonly string[] Letters = ["C", "D", "E", "F", "G", "A", "B"], Signs = ["", "", "", "#", "b", "♯", "♭", "##", "bb", "𝄪", "𝄫"];
    private static readonly string[] Modes = ["major", "minor", "dorian", "mixolydian", "lydian", "phrygian", "locrian", "ionian", "aeolian"];
    private static readonly string[] Shapes = ["low-drop", "shell", "rootless-nine", "a", "drop2", "x1-y"];
    private static readonly string[] Voices = ["top", "low", "mid", "thumb", "2nd", "Ω"];
    private static readonly string[] Tunings = ["E2 A2 D3 G3 B3 E4", "D2 A2 D3 G3 B3 E4", "B1 E2 A2 D3 G3 B3 E4", "D3 G3 B3 E4", "E2 A2 D3 G3 C4 F4", "F#1 B1 E2 A2 D3 G3 B3 E4", "C1 F#1 B1 E2 A2 D3 G3 B3 E4", "D2 A2 D3 F#3 A3 D4"];
    private static readonly string[] Words = ["Ferry", "at", "dusk", "let", "these", "ring", "1", "| C", "**bold**", "[a](b)", "<b>", "&amp;", "øre", "夜", "𝄞", "\"so\"", "C4", "`x`", "…"];

    /// <summary>A whole piece of a few bars.</summary>
    public static string Piece(Dice dice)
    {
        var lines = new List<string>();
        for (var n = dice.Next(5); n > 0; n--)
            lines.Add(Setting(dice));
        for (var n = dice.Next(3); n > 0; n--)
            lines.Add($"shape {dice.Of(Shapes)} = {Slots(dice)}{(dice.One(3) ? " fingers " + Fingers(dice) : "")}");
        for (var n = 1 + dice.Next(8); n > 0; n--)
        {
            if (dice.One(4))
                lines.Add(dice.One(3) ? Form(dice) : Between(dice));
            lines.Add(Chart(dice));
            for (var rows = dice.Next(4); rows > 0; rows--)
                lines.Add(Row(dice));
        }
        var end = dice.Next(8) switch { 0 => "\r\n", 1 => "\r", _ => "\n" };
        return string.Join(end, lines) + (dice.One(6) ? "" : end);
    }

    /// <summary>A line of any kind.</summary>
    public static string Line(Dice dice) => dice.Next(8) switch { 0 => Setting(dice), 1 => Form(dice), 2 => Between(dice), 3 => Chart(dice), 4 => "", _ => Row(dice) };

    /// <summary>A key as the setting and the command line take it.</summary>
    public static string Key(Dice dice) => dice.Next(6) switch
    {
        0 => $"{dice.Next(9)} {dice.Of("sharps", "flats", "sharp", "flat")}", 1 => dice.Of(Letters) + dice.Of(Signs), _ => $"{dice.Of(Letters)}{dice.Of(Signs)} {dice.Of(Modes)}",
    };

    /// <summary>A chord symbol.</summary>
    public static string Symbol(Dice dice)
    {
        var suffix = "";
        for (var n = dice.Next(4); n > 0; n--)
            suffix += dice.Of(Odds.Suffixes);
        return dice.Of(Letters) + dice.Of(Signs) + suffix + (dice.One(6) ? "/" + dice.Of(Letters) + dice.Of(Signs) : "");
    }

    /// <summary>A voicing in frets, one slot a string.</summary>
    public static string Slots(Dice dice)
    {
        var (low, strings) = (dice.Next(13), dice.One(5) ? 4 + dice.Next(6) : 6);
        var slots = Enumerable.Range(0, strings).Select(_ => dice.One(3) ? "x" : dice.One(12) ? $"{dice.Next(40)}" : $"{low + dice.Next(4)}").ToArray();
        return dice.One(8) && slots.All(s => s.Length == 1) ? string.Concat(slots) : string.Join('-', slots);
    }

    /// <summary>A pitch, or several on top of each other.</summary>
    public static string Pitches(Dice dice)
    {
        var notes = Enumerable.Range(0, dice.One(3) ? 1 + dice.Next(5) : 1)
            .Select(_ => dice.Of(Letters) + dice.Of(Signs) + (dice.One(5) ? "" : $"{(dice.One(20) ? dice.Next(12) : 2 + dice.Next(4))}") + (dice.One(8) ? $"@{dice.Next(10)}" : ""));
        return string.Join('+', notes);
    }

    /// <summary>Anything that may sound.</summary>
    public static string Sound(Dice dice) => dice.Next(12) switch
    {
        0 => "rest", 1 => "tied", 2 => "again", 3 or 4 or 5 => Slots(dice), 6 => $"{dice.Next(25)}@{1 + dice.Next(9)}", 7 => $"{Pitches(dice)} = {dice.Next(20)}@{1 + dice.Next(6)}",
        8 => dice.Of(Shapes) + dice.Of("", $"+{dice.Next(14)}", $"-{dice.Next(5)}", $" at {dice.Next(20)}"), _ => Pitches(dice),
    };

    /// <summary>A count.</summary>
    public static string Count(Dice dice, int from = 1) => (from + dice.Next(3)) + dice.Next(10) switch
    {
        0 => "&", 1 => "e", 2 => "a", 3 => "trip", 4 => "let", 5 => $"+{dice.Next(99)}/{dice.Next(100)}", _ => "",
    };

    private static string Setting(Dice dice) => dice.Next(16) switch
    {
        0 => "title  " + Prose(dice), 1 => "by " + Prose(dice), 2 or 3 => "key " + Key(dice), 4 or 5 => $"meter {1 + dice.Next(13)}/{dice.Of("2", "4", "4", "8", "16", "3")}",
        6 => "tempo " + dice.Of("66", "rubato around 60", "0", "9999", "rubato"), 7 => "feel swing", 8 => "strings " + dice.Of(Tunings), 9 => $"capo {dice.Next(25)}", 10 => $"frets {dice.Next(40)}",
        11 => $"scale-length {dice.Next(900)} mm", 12 => $"reach {dice.Next(20)} to {dice.Next(20)}", 13 => "naming " + dice.Of("jazz", "strict"), 14 => $"position {dice.Next(20)}", _ => "tags a, b, " + Prose(dice),
    };

    private static string Form(Dice dice) => dice.Next(9) switch
    {
        0 => $"repeat {dice.Next(5)}", 1 => $"ending {dice.Next(4)}", 2 or 3 => "end", 4 => "pickup from " + Count(dice, 2), 5 => dice.Of("segno", "coda", "to coda", "fine"),
        6 => dice.Of("da capo", "da capo al fine", "da capo al coda", "dal segno", "dal segno al fine", "dal segno al coda"), 7 => "section " + dice.Of("A", "B", "Bridge"), _ => $"section {dice.Of("A", "B")} again",
    };

    private static string Between(Dice dice) => dice.Next(7) switch
    {
        0 => "", 1 => "// allow " + dice.Of("hand-wide-stretch", "name-fret-slip", "text-unused-allow", "nothing") + dice.Of(": so", ""), 2 => "// " + Prose(dice), 3 => "> " + Prose(dice),
        4 => "use \"" + dice.Of("shapes.chl", "../x", "", "/etc/passwd") + "\"",
        5 => "expect " + dice.Of("no fret above 12", "only shapes low-drop, shell", "no open strings", "every chord on 4 strings", "only drop-2"), _ => "section " + Prose(dice),
    };

    private static string Chart(Dice dice)
    {
        if (dice.One(10))
            return dice.Of("|", "| %", "| N.C.", "|:", "||", "| C |", "| % | %", "| / /");
        var bars = Enumerable.Range(0, dice.One(5) ? 1 + dice.Next(4) : 1).Select(_ =>
        {
            var chords = Enumerable.Range(0, 1 + dice.Next(3)).Select(i => (i > 0 && !dice.One(4) ? $"{1 + i + dice.Next(2)}{(dice.One(8) ? "&" : "")} " : "") + (dice.One(12) ? dice.Of("/", "%", "N.C.") : Symbol(dice)));
            return "| " + string.Join("   ", chords);
        });
        return string.Join(' ', bars);
    }

    private static string Row(Dice dice)
    {
        var (text, at) = ("    " + (dice.One(4) ? dice.Of(Voices) + ": " : ""), 1);
        for (var n = 1 + dice.Next(5); n > 0; n--)
        {
            text += dice.One(12) ? $"{Count(dice, at)} to {Count(dice, at + 2)}  {string.Join(' ', Enumerable.Range(0, 2 + dice.Next(7)).Select(_ => Sound(dice)))}" : $"{Count(dice, at)} {Sound(dice)}";
            while (dice.One(3))
                text += " " + Mark(dice);
            (text, at) = (text + dice.Of("  ", " ", "   "), at + 1 + dice.Next(2));
        }
        return text.TrimEnd();
    }

    private static string Mark(Dice dice) => dice.Next(14) switch
    {
        0 => "ring", 1 => "ring until " + Count(dice), 2 => "ring over", 3 => $"ring@{1 + dice.Next(7)}", 4 => "grace " + Pitches(dice), 5 => "bend " + dice.Of("half", "full", "to F#4"), 6 => "is " + Symbol(dice),
        7 => "fingers " + Fingers(dice), 8 => "finger " + dice.Of("1", "2", "3", "4", "T", "0", "9"), 9 => "pluck p-i-m", 10 => "\"" + Prose(dice) + "\"", 11 => "slide from " + dice.Of("below", "above", "7@1", "D4"),
        12 => dice.Of("p", "mp", "mf", "f"), _ => dice.Of("short", "fermata", "accent", "roll", "slur", "slide", "hammer", "pull", "vibrato", "harmonic", "palm-mute", "dead", "unsure"),
    };

    private static string Fingers(Dice dice) => string.Join('-', Enumerable.Range(0, 6).Select(_ => dice.Of("x", "x", "1", "2", "3", "4", "T", "0")));

    private static string Prose(Dice dice) => string.Join(' ', Enumerable.Range(0, 1 + dice.Next(4)).Select(_ => dice.Of(Words)));
}
