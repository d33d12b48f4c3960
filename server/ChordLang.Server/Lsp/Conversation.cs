// What all handlers of one client share: the client, its open documents, and the way to answer about one.
using ChordLang.Checks.Configuring;
using ChordLang.Features.Choices;
using ChordLang.Server.Lsp.Protocol;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp;

/// <summary>One client's conversation, from initialize to shutdown.</summary>
internal sealed class Conversation(Client client)
{
    private const int NotInitialized = -32002, InvalidRequest = -32600;
    private Documents? documents;
    private Answers? answers;
    private LessonIndex? index;
    private bool stopped;

    /// <summary>The other end of the wire.</summary>
    public Client Client => client;

    /// <summary>True once the client has said initialize.</summary>
    public bool Begun => documents is not null;

    /// <summary>True once it has said shutdown.</summary>
    public bool Stopped => stopped;

    /// <summary>The open documents; an error for the client before initialize and after shutdown.</summary>
    public Documents Documents => stopped ? throw new LocalRpcException("The server was shut down.") { ErrorCode = InvalidRequest }
        : documents ?? throw new LocalRpcException("The client has not said initialize.") { ErrorCode = NotInitialized };

    /// <summary>The protocol's forms of what the features say.</summary>
    public Answers Answers => answers ?? throw new LocalRpcException("The client has not said initialize.") { ErrorCode = NotInitialized };

    /// <summary>What the lessons of the open folders hold.</summary>
    public LessonIndex Index => index ?? throw new LocalRpcException("The client has not said initialize.") { ErrorCode = NotInitialized };

    /// <summary>The folders that were open when the client said initialize.</summary>
    public IReadOnlyList<string> Folders { get; private set; } = [];

    /// <summary>The choices that came with initialize; they hold where the editor's settings say nothing.</summary>
    public EditorChoices Initial { get; private set; } = new();

    /// <summary>Called with documents that were made anew, so that their findings are sent or asked for again.</summary>
    public Action<IReadOnlyList<Document>> Renewed { get; set; } = _ => { };

    /// <summary>What the user chose.</summary>
    public EditorChoices Choices { get; set; } = new();

    /// <summary>Begins: the client has said who it is. Answers how it counts characters.</summary>
    public PositionEncoding Begin(InitializeParams p)
    {
        if (documents is not null)
            throw new LocalRpcException("The client has said initialize already.") { ErrorCode = InvalidRequest };
        client.Introduce(p);
        var encoding = Positions.Choose(client.Words("general.positionEncodings"));
        (documents, answers, index) = (new(encoding), new(client), new(client, encoding));
        Folders = [.. (p.WorkspaceFolders?.Select(f => f.Uri) ?? (p.RootUri is { } root ? [root] : [])).Select(Documents.PathOf).OfType<string>().Distinct()];
        Choices = Initial = ChoiceReader.Read(client.Options, new());
        if (client.Options is { } options)
            documents.Configure(ConfigurationReader.ReadEditor(options.GetRawText()));
        return encoding;
    }

    /// <summary>Ends: nothing is answered any more.</summary>
    public void Stop() => stopped = Documents is not null;

    /// <summary>An answer about a document. One that is not open has none; that is no error, for clients ask while they close.</summary>
    public T? On<T>(TextDocumentIdentifier id, Func<Document, T?> answer, CancellationToken cancel) where T : class
    {
        cancel.ThrowIfCancellationRequested();
        return Documents.Find(id.Uri) is { } document ? answer(document) : null;
    }

    /// <summary>An answer about a place in a document: its offset is given.</summary>
    public T? At<T>(TextDocumentIdentifier id, TextPosition position, Func<Document, int, T?> answer, CancellationToken cancel) where T : class =>
        On(id, d => answer(d, d.Positions.Offset(position)), cancel);
}
