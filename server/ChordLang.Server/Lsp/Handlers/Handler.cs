// The seam at which features meet the protocol: a handler is one file, with its messages, its offer and its answers.
using ChordLang.Server.Lsp.Protocol;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>Answers some messages of one client. A new one is a file here, a line in <see cref="All"/> and its payloads in a context of <see cref="LspJson"/>.</summary>
internal abstract class Handler
{
    /// <summary>The messages: of an interface of its own, marked for the generator of shapes.</summary>
    public abstract RpcTargetMetadata Messages { get; }

    /// <summary>Says in the server's capabilities what it offers to this client; nothing, where the client could not use it.</summary>
    public virtual void Offer(ServerCapabilities offered)
    {
    }

    /// <summary>The client is ready to be asked and told.</summary>
    public virtual void Ready()
    {
    }

    /// <summary>A document was closed.</summary>
    public virtual void Closed(string uri)
    {
    }

    /// <summary>Files changed on disk, by their full paths.</summary>
    public virtual void FilesChanged(IReadOnlyList<string> paths)
    {
    }

    /// <summary>The client says that no more will come.</summary>
    public virtual void Stop()
    {
    }

    /// <summary>All handlers of a conversation.</summary>
    public static IReadOnlyList<Handler> All(Conversation c) =>
    [
        new HoverHandler(c),
        new CompletionHandler(c),
        new NamesHandler(c),
        new OutlineHandler(c),
        new StructureHandler(c),
        new ColoursHandler(c),
        new HintsHandler(c),
        new LensHandler(c),
        new FormattingHandler(c),
        new LibraryHandler(c),
        new CodeActionHandler(c),
        new CommandHandler(c),
        new SheetHandler(c),
    ];
}
