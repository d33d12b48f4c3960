// `chordlang new`: a first file that checks clean.
namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class NewCommand : Command
{
    public override string Name => "new";

    public override string Takes => "[TITLE]";

    public override string Summary => "Prints a first arrangement that checks clean, to be written on";

    public override IReadOnlyList<Option> Options { get; } =
    [
        new("--key", "KEY", "its key, such as 'G major' or 'D dorian'"),
        new("--meter", "METER", "its meter, such as 3/4 (default: 4/4)"),
        new("--tempo", "BPM", "its tempo in beats a minute"),
        new("--strings", "PITCHES", "its tuning, lowest string first, such as 'D2 A2 D3 G3 B3 E4'"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        var title = arguments.Words.Count == 0 ? "Untitled" : Terminal.Harmless(string.Join(' ', arguments.Words));
        var settings = new List<string> { $"title   {title}" };
        foreach (var name in (string[])["key", "meter", "tempo", "strings"])
            if ((arguments["--" + name] ?? (name == "meter" ? "4/4" : null)) is { } value)
                settings.Add($"{name,-7} {Terminal.Harmless(value)}");
        var text = string.Join('\n', settings) + "\n\nsection Opening\n\n| Cmaj7\n    1 x-3-2-4-5-x\n> What your students should hear here.\n";
        var findings = CheckCommand.Check(Grammar.Text.SourceText.From(text), null);
        var own = findings.FirstOrDefault(f => f.Bar is null);
        if (own is not null)
            throw new MisuseException(own.Message);
        terminal.Out.Write(findings.IsEmpty ? text : text.Replace("| Cmaj7\n    1 x-3-2-4-5-x\n", "| N.C.\n    1 rest\n", StringComparison.Ordinal));
        return Clean;
    }
}
