// Finds the command that is called, reads its options, runs it, and turns every trouble into a sentence and an exit code.
using System.Reflection;
using System.Text;

namespace ChordLang.Server.Cli;

/// <summary>The command line.</summary>
internal static class CommandLine
{
    /// <summary>All commands, in the order of the help.</summary>
    public static IReadOnlyList<Command> Commands { get; } =
    [
        new CheckCommand(), new ExplainCommand(), new FormatCommand(), new NewCommand(), new ChordCommand(), new NameCommand(), new AnalyseCommand(), new PlaceCommand(), new RespellCommand(), new TransposeCommand(), new PracticeCommand(),
        new ExportCommand(), new ImportCommand(), new DescribeCommand(), new DiffCommand(), new GitCommand(), new ConfigCommand(), new FindCommand(), new ServeCommand(),
    ];

    /// <summary>Runs a call; answers the exit code.</summary>
    public static int Run(IReadOnlyList<string> arguments, Terminal terminal)
    {
        try
        {
            return Dispatch(arguments, terminal);
        }
        catch (MisuseException e)
        {
            // It may quote what was typed, or what a file says; its own lines stay lines.
            terminal.Error.WriteLine($"chordlang: {string.Join('\n', e.Message.Split('\n').Select(Terminal.Harmless))}");
            return Command.Trouble;
        }
        catch (IOException e)     // the reader of a pipe may have gone; a full disk says so
        {
            terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(e.Message)}");
            return Command.Trouble;
        }
#pragma warning disable CA1031 // The last net: a crash is one clear line and exit code 2, not a dump.
        catch (Exception e)
#pragma warning restore CA1031
        {
            terminal.Error.WriteLine($"chordlang: this is a fault of ChordLang, not of your file: {e.GetType().Name}: {Terminal.Harmless(e.Message)}");
            if (Environment.GetEnvironmentVariable("CHORDLANG_TRACE") == "1")
                terminal.Error.WriteLine(e.StackTrace);
            return Command.Trouble;
        }
        finally
        {
            Flush(terminal);
        }
    }

    private static int Dispatch(IReadOnlyList<string> arguments, Terminal terminal)
    {
        if (arguments.Count == 0 || arguments[0] is "--help" or "-h" or "help" && arguments.Count == 1)
        {
            terminal.Out.Write(HelpText.Overview(Commands));
            return arguments.Count == 0 ? Command.Trouble : Command.Clean;
        }
        if (arguments[0] == "--version")
        {
            terminal.Out.WriteLine($"chordlang {Version}");
            return Command.Clean;
        }
        var word = arguments[0] == "help" ? arguments[1] : arguments[0];
        var command = Commands.FirstOrDefault(c => c.Name == word)
            ?? throw new MisuseException($"there is no command {Quote(word)}.{Nearest(word, Commands.Select(c => c.Name))} 'chordlang --help' lists them.");
        if (arguments[0] == "help" || arguments.Skip(1).TakeWhile(a => a != "--").Any(a => a is "--help" or "-h"))
        {
            terminal.Out.Write(HelpText.Of(command));
            return Command.Clean;
        }
        return command.Run(Read(command, arguments.Skip(1).ToList()), terminal);
    }

    /// <summary>The number of this version.</summary>
    public static string Version => typeof(CommandLine).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "0";

    private static Arguments Read(Command command, List<string> given)
    {
        var words = new List<string>();
        var values = new Dictionary<string, string>(StringComparer.Ordinal);
        for (var i = 0; i < given.Count; i++)
        {
            var a = given[i];
            if (a == "--")
            {
                words.AddRange(given.Skip(i + 1));
                break;
            }
            if (a == "-" || !a.StartsWith("--", StringComparison.Ordinal))
            {
                words.Add(a);
                continue;
            }
            var cut = a.IndexOf('=', StringComparison.Ordinal);
            var name = cut < 0 ? a : a[..cut];
            var option = command.Options.FirstOrDefault(o => o.Name == name)
                ?? throw new MisuseException($"{command.Name} has no option {Quote(name)}.{Nearest(name, command.Options.Select(o => o.Name))} 'chordlang {command.Name} --help' lists them.");
            if (option.Value is null && cut >= 0)
                throw new MisuseException($"{name} takes no value.");
            var value = option.Value is null ? "" : cut >= 0 ? a[(cut + 1)..] : ++i < given.Count ? given[i]
                : throw new MisuseException($"{name} needs a value: {name} {option.Value}.");
            if (option.Choices is { } choices && !choices.Contains(value))
                throw new MisuseException($"{name} {Quote(value)}: it can be {string.Join(", ", choices)}.");
            values[name] = value;
        }
        return new(words, values);
    }

    private static string Quote(string word) => $"'{Terminal.Harmless(word)}'";

    private static string Nearest(string word, IEnumerable<string> good) =>
        good.Select(g => (g, Distance: Distance(word, g))).Where(x => x.Distance <= 2).OrderBy(x => x.Distance).Select(x => $" Did you mean {x.g}?").FirstOrDefault() ?? "";

    private static int Distance(string a, string b)
    {
        var row = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
                (diagonal, row[j]) = (row[j], Math.Min(Math.Min(row[j], row[j - 1]) + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1)));
        }
        return row[^1];
    }

    private static void Flush(Terminal terminal)
    {
        try
        {
            terminal.Out.Flush();
        }
        catch (IOException)
        {
            // The reader has gone; there is nobody left to tell.
        }
    }
}

/// <summary>The help.</summary>
internal static class HelpText
{
    /// <summary>The list of commands.</summary>
    public static string Overview(IEnumerable<Command> commands)
    {
        var text = new StringBuilder("chordlang: write guitar arrangements as text, and know that they are right.\n\n");
        foreach (var c in commands)
            text.Append($"  {c.Name,-10} {c.Summary}\n");
        return text.Append("\nchordlang COMMAND --help says more of one. Exit code: 0 clean, 1 findings, 2 misuse or an unreadable file.\n").ToString();
    }

    /// <summary>One command.</summary>
    public static string Of(Command command)
    {
        var text = new StringBuilder($"chordlang {command.Name} {command.Takes}\n\n{command.Summary}.\n");
        if (command.Options.Count > 0)
            text.Append('\n');
        foreach (var o in command.Options)
            text.Append($"  {(o.Value is null ? o.Name : $"{o.Name} {o.Value}"),-26} {o.Summary}\n");
        return text.ToString();
    }
}
