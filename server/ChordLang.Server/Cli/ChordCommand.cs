// `chordlang chord`: what a chord symbol means.
using System.Text.Json;
using ChordLang.Theory.Chords;

namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class ChordCommand : Command
{
    public override string Name => "chord";

    public override string Takes => "SYMBOL … (or - for one a line)";

    public override string Summary => "Says what a chord symbol means: its tones and their degrees";

    public override IReadOnlyList<Option> Options { get; } = [Format];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        var symbols = Lines.Of(arguments, terminal, "chord needs a symbol, such as C13(b9), or - for one a line.");
        var chords = symbols.Select(Read).ToList();
        if (arguments.Json)
            terminal.Json(JsonSerializer.Serialize(new ChordsJson(1, chords), Json.Plain.ChordsJson));
        else
            foreach (var c in chords)
                Write(c, terminal);
        return chords.Any(c => c.Trouble is not null) ? Found : Clean;
    }

    private static ChordJson Read(string symbol)
    {
        var reading = ChordReader.Read(symbol);
        return reading.Chord is { } c
            ? new(symbol, c.Root.ToString(), c.Bass?.ToString(), c.Kind, [.. c.Tones.Select(t => new ChordToneJson(t.Name.ToString(), t.Degree.ToString(), t.Degree.Semitones))], null)
            : new(symbol, null, null, null, [], new(reading.Trouble!.Message, reading.Trouble.At, reading.Trouble.Length, reading.Trouble.Nearest));
    }

    private static void Write(ChordJson chord, Terminal terminal)
    {
        var symbol = Terminal.Harmless(chord.Symbol);
        if (chord.Trouble is { } trouble)
        {
            terminal.Out.WriteLine($"{symbol}\n{new string(' ', trouble.Character)}{new string('^', Math.Max(1, trouble.Length))}\n  {Terminal.Harmless(trouble.Message)}");
            return;
        }
        terminal.Out.WriteLine($"{symbol}: {string.Join(' ', chord.Tones.Select(t => t.Pitch))}{(chord.Bass is { } b ? $" over {b}" : "")}");
        terminal.Out.WriteLine($"  degrees {string.Join(' ', chord.Tones.Select(t => t.Degree))}, kind {chord.Kind}");
    }
}

/// <summary>The words of a call, or the lines of standard input.</summary>
internal static class Lines
{
    /// <summary>What to answer, one entry each.</summary>
    public static List<string> Of(Arguments arguments, Terminal terminal, string missing)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException(missing);
        if (arguments.Words is not ["-"])
            return [.. arguments.Words];
        using var reader = new StreamReader(terminal.In());
        var lines = new List<string>();
        while (reader.ReadLine() is { } line)
            if (!string.IsNullOrWhiteSpace(line))
                lines.Add(line.Trim());
        return lines;
    }
}
