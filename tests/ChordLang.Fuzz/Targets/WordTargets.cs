// What is typed on the command line: chord symbols, keys, pitches, shapes, and whole calls.
using System.Text;
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Features.Search;
using ChordLang.Fuzz.Generating;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Spoken;
using ChordLang.Server.Cli;
using ChordLang.Testing;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Fuzz.Targets;

internal static class WordTargets
{
    // Commands that read standard input or nothing, and write to standard output.
    private static readonly string[] Commands = ["chord", "name", "transpose", "find", "analyse", "place", "respell", "practice", "describe", "export", "import", "check", "format", "explain", "help"];

    private static readonly string[] Options =
    [
        "--format", "json", "text", "sarif", "github", "--key", "--strings", "E2 A2 D3 G3 B3 E4", "--after", "--before", "--to", "--by", "--chord", "--shape", "--role", "related-two", "--progression", "ii V I", "--tag", "--brief", "--all", "--hand", "small",
        "--bars", "1-2", "--others", "--width", "40", "--to=tab", "--to=musicxml", "--to=svg", "--to=sheet", "--staves", "staff", "--diagrams", "every", "--numerals", "--skeleton", "--large", "--sound", "--part", "1", "--most", "0", "--bar-by-bar", "--check", "--diff",
        "--fail-on", "hint", "--", "-", "--help", "--format=json", "", "--take", "2",
    ];

    // These print a text itself, or an answer in a format that has rules of its own.
    private static readonly string[] PrintTexts = ["transpose", "format"];

    public static Target[] All { get; } =
    [
        new("chord", "a symbol is read or the place of its trouble lies in it, proposals can be read, the chart reads it alike", 160, d => d.One(3) ? Mutations.Text(d, Pieces.Symbol(d), Pieces.Symbol(d), Odds.Suffixes) : Pieces.Symbol(d), Chord) { Damage = (d, text, other) => Mutations.Text(d, text, other, Odds.Suffixes) },
        new("words", "keys, pitches, shapes and progressions are read or refused, and what was read is written and read alike", 120, Word, Words) { Damage = (d, text, other) => Mutations.Text(d, text, other, ["#", "b", "♭", "𝄫", "4", "-1", "major", "minor", " ", "7", "ii", "V/V", "bII", "x", "x-3-5", "+"]) },
        new("command", "every call ends with 0, 1 or 2 and no fault of ours; JSON is one document, and no text steers the terminal", 6, Call, Command) { Damage = (d, text, other) => Mutations.Text(d, text, other, [.. Options.Select(o => Parts.Between + o), .. Odds.Tokens]) },
    ];

    private static string? Chord(string symbol)
    {
        var reading = ChordReader.Read(symbol);
        if (reading.Chord is not { } chord)
            return reading.Trouble is not { } t || t.Message.Length == 0 || t.At < 0 || t.Length < 0 || t.At + t.Length > symbol.Length ? $"its trouble lies outside it: {reading.Trouble}"
                : t.Nearest.FirstOrDefault(n => ChordReader.Read(n).Chord is null) is { } bad ? $"it proposes {bad}, which cannot be read" : null;
        if (chord.Tones.IsEmpty || chord.Kind.Length == 0)
            return "it has no tones or no kind";
        if (symbol.Any(char.IsWhiteSpace))
            return null;
        var piece = Binder.Bind(SyntaxTree.Parse("| " + symbol));
        if (piece.Bars is not [{ Chords: [{ Chord: { } written, Symbol: { } syntax }] }])
            return "the command line reads it, a chart does not";
        _ = SpokenWords.Of(written, syntax);
        return written.Tones.SequenceEqual(chord.Tones) && written.Bass == chord.Bass ? null : $"a chart reads {string.Join(' ', written.Tones)} over {written.Bass}, the command line {string.Join(' ', chord.Tones)} over {chord.Bass}";
    }

    private static string Word(Dice dice)
    {
        var word = dice.Next(5) switch
        {
            0 => Pieces.Key(dice), 1 => Pieces.Pitches(dice), 2 => Pieces.Slots(dice), 3 => Pieces.Symbol(dice),
            _ => string.Join(' ', Enumerable.Range(0, 1 + dice.Next(4)).Select(_ => dice.Of("", "b", "#") + dice.Of("i", "ii", "iii", "IV", "V", "vi", "VII", "I") + dice.Of("", "", "7", "maj7", "o7", "/V", "m7b5"))),
        };
        return dice.One(2) ? word : Mutations.Text(dice, word, Pieces.Key(dice), Odds.Numbers);
    }

    private static string? Words(string text)
    {
        if (Key.TryParse(text, out var key) && !(Key.TryParse(key.ToString(), out var again) && again == key))
            return $"the key {key} is not read again";
        if (Pitch.TryParse(text, out var pitch) && !(Pitch.TryParse(pitch.ToString(), out var same) && same == pitch))
            return $"the pitch {pitch} is not read again";
        if (PitchName.TryParse(text, out var name) && !(PitchName.TryParse(name.ToString(), out var alike) && alike == name))
            return $"the note {name} is not read again";
        foreach (var words in (IEnumerable<WantedWords>)[new(Chord: text), new(Shape: text), new(Role: text), new(Progression: text), new(Tag: text), new(Key: text)])
            if (Wanted.Read(words, out var trouble) is null && string.IsNullOrEmpty(trouble))
                return $"the search {words} is refused without a word";
        return null;
    }

    private static string Call(Dice dice)
    {
        var command = dice.Of(Commands);
        var arguments = new List<string> { command };
        if (command is "chord" or "name")
            arguments.AddRange(Enumerable.Range(0, dice.Next(3)).Select(_ => command == "chord" ? Pieces.Symbol(dice) : Pieces.Sound(dice)));
        else if (command is not ("explain" or "help") || dice.One(4))
            arguments.Add("-");
        for (var n = dice.Next(4); n > 0; n--)
            arguments.Add(dice.Next(6) switch { 0 => Pieces.Key(dice), 1 => Pieces.Symbol(dice), 2 => dice.Of(Odds.Numbers), _ => dice.Of(Options) });
        if (command == "transpose" && dice.One(2))
            arguments.AddRange("--to", Pieces.Key(dice));
        if (command == "export")
            arguments.Add("--to=" + dice.Of("tab", "musicxml", "svg", "sheet"));
        return Parts.Join([.. arguments, Texts.Any(dice)]);
    }

    private static string? Command(string input)
    {
        var parts = Parts.Of(input, 2);
        var (arguments, text) = (parts[..^1], parts[^1]);
        // Nothing of this machine is read or written, and nothing that waits is started.
        if (!Commands.Contains(arguments[0]) || arguments.Skip(1).Any(a => a.StartsWith("--out", StringComparison.Ordinal) || a.StartsWith("--w", StringComparison.Ordinal) && !a.StartsWith("--width", StringComparison.Ordinal)
            || a.StartsWith("--s", StringComparison.Ordinal) && a.Contains('=', StringComparison.Ordinal) || a.StartsWith("--fix", StringComparison.Ordinal) || File.Exists(a) || Directory.Exists(a)))
            return null;
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        var code = CommandLine.Run(arguments, new(output, error, () => new MemoryStream(Encoding.UTF8.GetBytes(text)), false));
        var (said, told) = (output.ToString(), error.ToString());
        if (code is < 0 or > 2 || told.Contains("fault of ChordLang", StringComparison.Ordinal) || code == 2 && told.Length == 0 && arguments.Length > 0)
            return $"ends with {code}: {told}";
        var json = arguments.Contains("--format=json") || arguments.SkipLast(1).Zip(arguments.Skip(1)).Any(a => a is ("--format", "json"));
        if (json && said.Length > 0 && said[0] == '{' && !IsJson(said))
            return $"prints no JSON document:\n{said}";
        return (PrintTexts.Contains(arguments[0]) ? "" : said) is var shown && (shown + told).FirstOrDefault(c => c is '\u001B' or '\u0007' or '\u202E' or '\u009B') is var steering and not '\0' ? $"lets U+{(int)steering:X4} through to the terminal:\n{shown}{told}" : null;
    }

    private static bool IsJson(string text)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            return true;
        }
        catch (JsonException)
        {
            return false;
        }
    }
}
