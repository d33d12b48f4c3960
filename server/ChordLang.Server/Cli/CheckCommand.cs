// `chordlang check`: every check on every file.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

/// <summary>A file after its check.</summary>
/// <param name="Source">The file; where it could not be read, its trouble says why.</param>
/// <param name="Findings">What was found, in the order of the text.</param>
/// <param name="Fixed">How many fixes were written into it.</param>
/// <param name="Failed">True where it was read, but its check or its fixes broke off; the source's trouble says why.</param>
internal sealed record CheckedFile(Source Source, ImmutableArray<Finding> Findings, int Fixed, bool Failed = false);

/// <inheritdoc/>
internal sealed class CheckCommand : Command
{
    private const int MostRounds = 20;

    public override string Name => "check";

    public override string Takes => "FILE, FOLDER or - …";

    public override string Summary => "Says what is wrong in arrangements, where, and what to do";

    public override IReadOnlyList<Option> Options { get; } =
    [
        Format,
        new("--fail-on", "LEVEL", "the least grave finding that makes the exit code 1 (default: warning)", ["error", "warning", "information", "hint"]),
        new("--fix", null, "write every safe fix into the files: those that cannot change the sound"),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("check needs a file, a folder, or - for standard input.");
        var level = Enum.Parse<Severity>(arguments["--fail-on"] ?? "warning", true);
        var mend = arguments.Has("--fix");
        var files = Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]).ToList();
        // Ordered and parallel: files come out as they were named, while the next are being read.
        var done = files.AsParallel().AsOrdered().WithMergeOptions(ParallelMergeOptions.NotBuffered).Select(f => Guarded(f(), mend));
        var all = new List<CheckedFile>();
        foreach (var file in done)
        {
            all.Add(file);
            if (file.Source.Text is null)
                terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(file.Source.Path)} cannot be {(file.Failed ? "checked" : "read")}: {Terminal.Harmless(file.Source.Trouble!)}.");
            if (!arguments.Json)
                TextReport.Write(file, terminal);
        }
        if (arguments.Json)
            JsonReport.Write(all, terminal);
        else
            TextReport.Summary(all, terminal);
        return all.Any(f => f.Source.Text is null) ? Trouble : all.Any(f => f.Findings.Any(x => x.Severity <= level)) ? Found : Clean;
    }

    /// <summary>Checks a text as `check` and the server do.</summary>
    public static ImmutableArray<Finding> Check(SourceText text, string? fullPath) =>
        CheckCatalogue.Run(Binder.Bind(SyntaxTree.Parse(text), new Library(fullPath)));

    // One file that cannot be written, or a fault of ours, takes no other file with it.
    private static CheckedFile Guarded(Source source, bool mend)
    {
        try
        {
            return Check(source, mend);
        }
#pragma warning disable CA1031 // What went wrong is told, and the run goes on.
        catch (Exception e)
#pragma warning restore CA1031
        {
            return new(source with { Text = null, Trouble = Reason(e) }, [], 0, true);
        }
    }

    private static CheckedFile Check(Source source, bool mend)
    {
        if (source.Text is not { } text)
            return new(source, [], 0);
        var findings = Check(text, source.FullPath);
        if (!mend)
            return new(source, findings, 0);
        var count = 0;
        for (var round = 0; round < MostRounds && Safe(findings, text) is { Length: > 0 } edits; round++)
        {
            text = text.With(edits.SelectMany(e => e));
            count += edits.Length;
            findings = Check(text, source.FullPath);
        }
        if (count > 0 && source.FullPath is { } path)
            Replacement.Write(path, text.ToBytes());
        return new(source with { Text = text }, findings, count);
    }

    // The safe fixes that do not touch each other; the others have their turn in the next round.
    private static ImmutableArray<ImmutableArray<TextEdit>> Safe(ImmutableArray<Finding> findings, SourceText text)
    {
        var taken = new List<Span>();
        var edits = ImmutableArray.CreateBuilder<ImmutableArray<TextEdit>>();
        foreach (var fix in findings.Select(f => f.Fixes.FirstOrDefault(x => x.Safe)))
            if (fix is { Edits.Length: > 0 } && fix.Edits.All(e => e.Span.End <= text.Text.Length && !taken.Any(t => t.Start <= e.Span.End && e.Span.Start <= t.End)))
            {
                taken.AddRange(fix.Edits.Select(e => e.Span));
                edits.Add(fix.Edits);
            }
        return edits.ToImmutable();
    }
}
