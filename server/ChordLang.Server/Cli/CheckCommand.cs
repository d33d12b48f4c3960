// `chordlang check`: every check on every file.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Configuring;
using ChordLang.Features.Actions;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

/// <summary>A file after its check.</summary>
/// <param name="Source">The file; where it could not be read, its trouble says why.</param>
/// <param name="Findings">What was found, in the order of the text.</param>
/// <param name="Fixed">How many fixes were written into it.</param>
/// <param name="Failed">True where it was read, but its check or its fixes broke off; the source's trouble says why.</param>
internal sealed record CheckedFile(Source Source, ImmutableArray<Finding> Findings, int Fixed, bool Failed = false)
{
    /// <summary>What a comment allows.</summary>
    public ImmutableArray<AllowedFinding> Allowed { get; init; } = [];

    /// <summary>What the configuration that holds for it should say otherwise.</summary>
    public ImmutableArray<(string? Path, ConfigurationTrouble Trouble)> Configured { get; init; } = [];

    /// <summary>What is still needed once its findings were told: how grave they are, and whether it was read. A large library is not kept in memory.</summary>
    public CheckedFile Told => new(Source with { Text = Source.Text is null ? null : Nothing }, [.. Findings.Select(f => new Finding(f.Code, f.Severity, "", default))], Fixed, Failed) { Configured = Configured };

    private static SourceText Nothing { get; } = SourceText.From("");
}

/// <inheritdoc/>
internal sealed class CheckCommand : Command
{
    public override string Name => "check";

    public override string Takes => "FILE, FOLDER or - …";

    public override string Summary => "Says what is wrong in arrangements, where, and what to do";

    public override IReadOnlyList<Option> Options { get; } =
    [
        new("--format", "text|json|sarif|github", "how the answer is written: for people, for programs, for code scanning, for annotations", ["text", "json", "sarif", "github"]),
        new("--fail-on", "LEVEL", "the least grave finding that makes the exit code 1 (default: warning)", ["error", "warning", "information", "hint"]),
        new("--fix", null, "write every safe fix into the files: those that cannot change the sound"),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
        new("--watch", null, "check again whenever a file changes, until it is stopped"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("check needs a file, a folder, or - for standard input.");
        var (level, mend) = (Enum.Parse<Severity>(arguments["--fail-on"] ?? "warning", true), arguments.Has("--fix"));
        if (!arguments.Has("--watch"))
            return Code(Round(arguments, terminal, mend), level);
        if (arguments.Words.Contains("-") || (arguments["--format"] ?? "text") != "text")
            throw new MisuseException("--watch is for files and folders, and writes text: standard input does not change, and a document has one end.");
        using var changes = new FileChanges(arguments.Words);
        return Code(new CheckWatch(() => Files(arguments, terminal, mend), terminal).Run(changes.Rounds()), level);
    }

    /// <summary>The exit code of a round.</summary>
    internal static int Code(IReadOnlyCollection<CheckedFile> files, Severity level) =>
        files.Any(f => f.Source.Text is null || f.Configured.Any(c => c.Trouble.Unreadable)) ? Trouble : files.Any(f => f.Findings.Any(x => x.Severity <= level)) ? Found : Clean;

    /// <summary>Every file after its check, in the order named: files come out while the next are being read. On a terminal it is shown how far that is.</summary>
    internal static IEnumerable<CheckedFile> Files(Arguments arguments, Terminal terminal, bool mend)
    {
        var sources = Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]).ToList();
        using var progress = new ProgressLine(terminal, sources.Count);
        foreach (var file in InOrder.Of(sources, f => Guarded(f(), mend)))
        {
            if (file is not { Source.Text: not null, Findings.Length: 0, Fixed: 0 })
                progress.Clear();
            yield return file;
            progress.Step();
        }
    }

    /// <summary>Says why a file has no findings.</summary>
    internal static void Unread(CheckedFile file, Terminal terminal)
    {
        if (file.Source.Text is null)
            terminal.Error.WriteLine($"chordlang: {Unreadable(file.Source, file.Failed ? "checked" : "read")}");
    }

    private static List<CheckedFile> Round(Arguments arguments, Terminal terminal, bool mend)
    {
        var (all, text) = (new List<CheckedFile>(), (arguments["--format"] ?? "text") == "text");
        foreach (var file in Files(arguments, terminal, mend))
        {
            Unread(file, terminal);
            if (text)
                TextReport.Write(file, terminal);
            // The other forms are written when all is known, but a clean file has nothing to say there either.
            all.Add(text || file is { Findings.Length: 0, Allowed.Length: 0 } ? file.Told : file);
        }
        ConfigCommand.Tell(all.SelectMany(f => f.Configured), terminal);
        switch (arguments["--format"])
        {
            case "json":
                JsonReport.Write(all, terminal);
                break;
            case "sarif":
                SarifReport.Write(all, terminal);
                break;
            case "github":
                AnnotationReport.Write(all, terminal);
                break;
            default:
                TextReport.Summary(all, terminal);
                break;
        }
        return all;
    }

    /// <summary>Checks a text as `check` and the server do.</summary>
    public static ImmutableArray<Finding> Check(SourceText text, string? fullPath) =>
        Report(text, new Library(fullPath)).Findings;

    private static CheckReport Report(SourceText text, Library library) => CheckCatalogue.Report(Binder.Bind(SyntaxTree.Parse(text), library), library.Configuration);

    // One file that cannot be written, or a fault of ours, takes no other file with it.
    internal static CheckedFile Guarded(Source source, bool mend, Library? library = null)
    {
        try
        {
            return Check(source, mend, library ?? new Library(source.FullPath));
        }
#pragma warning disable CA1031 // What went wrong is told, and the run goes on.
        catch (Exception e)
#pragma warning restore CA1031
        {
            return new(source with { Text = null, Trouble = Reason(e) }, [], 0, true);
        }
    }

    private static CheckedFile Check(Source source, bool mend, Library library)
    {
        if (source.Text is not { } text)
            return new(source, [], 0);
        var (report, count) = (Report(text, library), 0);
        if (mend)
            (text, _, count) = SafeFixes.Apply(text, report.Findings, t => (report = Report(t, library)).Findings);
        if (count > 0 && source.FullPath is { } path)
            Replacement.Write(path, text.ToBytes());
        return new(source with { Text = text }, report.Findings, count) { Allowed = report.Allowed, Configured = library.Configured.Troubles };
    }
}
