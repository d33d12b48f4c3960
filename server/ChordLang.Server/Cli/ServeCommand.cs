// `chordlang serve`: the language server on standard input and output; with --check, a trial of it on files.
using ChordLang.Server.Lsp;
using ChordLang.Server.Lsp.Checking;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class ServeCommand : Command
{
    public override string Name => "serve";

    public override string Takes => "[--check FILE or FOLDER …]";

    public override string Summary => "Speaks with an editor: the language server on standard input and output";

    public override IReadOnlyList<Option> Options { get; } =
    [
        new("--stdio", null, "standard input and output, which is what it does anyway"),
        new("--check", null, "try the server on files: every request at every position, and tell what fails"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Has("--check"))
            return Check(arguments, terminal);
        if (arguments.Words.Count > 0)
            throw new MisuseException("serve takes no files: the editor opens them. 'serve --check FILES' tries the server on them.");
        return Session.Run(terminal.In(), terminal.RawOut(), m => terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(m)}")).GetAwaiter().GetResult();
    }

    private static int Check(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("serve --check needs a file or a folder.");
        var (files, requests, faults, unread) = (0, 0, 0, false);
        var done = Sources.Find(arguments.Words, terminal.In, null).ToList().AsParallel().AsOrdered().WithMergeOptions(ParallelMergeOptions.NotBuffered)
            .Select(f => f()).Select(s => (Source: s, Verdict: s.Text is { } text ? ServerCheck.Of(text, s.FullPath).GetAwaiter().GetResult() : null));
        foreach (var (source, verdict) in done)
        {
            if (verdict is null)
            {
                terminal.Error.WriteLine($"chordlang: {Unreadable(source)}");
                unread = true;
                continue;
            }
            (files, requests, faults) = (files + 1, requests + verdict.Requests, faults + verdict.Faults.Count);
            foreach (var f in verdict.Faults)
                terminal.Out.WriteLine($"{Terminal.Harmless(source.Path)}:{f.Line + 1}:{f.Character + 1}: {f.Method}: {Terminal.Harmless(f.Message)}");
        }
        terminal.Out.WriteLine($"{requests} requests about {files} {(files == 1 ? "file" : "files")}: {(faults == 0 ? "all were answered" : $"{faults} failed")}.");
        return unread ? Trouble : faults > 0 ? Found : Clean;
    }
}
