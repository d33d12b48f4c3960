// `chordlang serve`: the language server on standard input and output.
using ChordLang.Server.Lsp;

namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class ServeCommand : Command
{
    public override string Name => "serve";

    public override string Takes => "";

    public override string Summary => "Speaks with an editor: the language server on standard input and output";

    public override IReadOnlyList<Option> Options { get; } = [new("--stdio", null, "standard input and output, which is what it does anyway")];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count > 0)
            throw new MisuseException("serve takes no files: the editor opens them.");
        return Session.Run(terminal.In(), terminal.RawOut(), m => terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(m)}")).GetAwaiter().GetResult();
    }
}
