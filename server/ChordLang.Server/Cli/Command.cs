// What every command is: a name, the words of its help, its options, and a run.
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

/// <summary>An option of a command.</summary>
/// <param name="Name">With its dashes.</param>
/// <param name="Value">What it takes, as help calls it; null for a switch.</param>
/// <param name="Summary">One line for the help.</param>
/// <param name="Choices">The only values it takes, or null for any.</param>
internal sealed record Option(string Name, string? Value, string Summary, string[]? Choices = null);

/// <summary>The arguments of a command, read by its options.</summary>
/// <param name="Words">What is no option, in order.</param>
/// <param name="Values">Options given, by name; a switch has an empty value.</param>
internal sealed record Arguments(IReadOnlyList<string> Words, IReadOnlyDictionary<string, string> Values)
{
    /// <summary>True where the option was given.</summary>
    public bool Has(string name) => Values.ContainsKey(name);

    /// <summary>The value of an option, or null.</summary>
    public string? this[string name] => Values.GetValueOrDefault(name);

    /// <summary>True for <c>--format json</c>.</summary>
    public bool Json => this["--format"] == "json";
}

/// <summary>A command.</summary>
internal abstract class Command
{
    /// <summary>0: clean. 1: findings at or above the level asked for. 2: misuse, unreadable file or crash.</summary>
    public const int Clean = 0, Found = 1, Trouble = 2;

    protected static Option Format { get; } = new("--format", "text|json", "how the answer is written", ["text", "json"]);

    /// <summary>The word it is called by.</summary>
    public abstract string Name { get; }

    /// <summary>What it takes, as the first line of its help shows it.</summary>
    public abstract string Takes { get; }

    /// <summary>What it does, in one line.</summary>
    public abstract string Summary { get; }

    /// <summary>Its options.</summary>
    public abstract IReadOnlyList<Option> Options { get; }

    /// <summary>Why one file of many broke off, for a sentence that ends with it.</summary>
    protected static string Reason(Exception e) => e is IOException or UnauthorizedAccessException ? e.Message.TrimEnd('.')
        : $"this is a fault of ChordLang, not of your file: {e.GetType().Name}: {e.Message.TrimEnd('.')}";

    /// <summary>What to say of a file that gave no text. Its name, and the system's words about it, may hold anything, so they are made harmless.</summary>
    /// <param name="source">The file.</param>
    /// <param name="what">What could not be done with it: <c>read</c>, <c>checked</c>.</param>
    protected static string Unreadable(Source source, string what = "read") => $"{Terminal.Harmless(source.Path)} cannot be {what}: {Terminal.Harmless(source.Trouble!)}.";

    /// <summary>Does it; answers the exit code.</summary>
    public abstract int Run(Arguments arguments, Terminal terminal);
}

/// <summary>A call that cannot be understood; the message says why and what to write.</summary>
internal sealed class MisuseException(string message) : Exception(message);
