// Answers the client: changes are applied in order, requests read the version that was there when they came.
using System.Reflection;
using ChordLang.Features.Hovers;
using ChordLang.Server.Lsp.Protocol;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp;

/// <summary>The server of one client.</summary>
internal sealed class LanguageServer(Client client) : ILanguageServer
{
    private const int NotInitialized = -32002, InvalidRequest = -32600;
    private readonly TaskCompletionSource<int> exited = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly TaskCompletionSource parent = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private Documents? documents;
    private Answers answers = null!;
    private Publisher? publisher;
    private bool stopped;

    /// <summary>Ends with the exit code when the client says exit: 0 after a shutdown, else 1.</summary>
    public Task<int> Exited => exited.Task;

    /// <summary>Ends when the process that started us does; never where that is not known.</summary>
    public Task ParentGone => parent.Task;

    private Documents Open => stopped ? throw new LocalRpcException("The server was shut down.") { ErrorCode = InvalidRequest }
        : documents ?? throw new LocalRpcException("The client has not said initialize.") { ErrorCode = NotInitialized };

    public InitializeResult Initialize(InitializeParams p)
    {
        if (documents is not null)
            throw new LocalRpcException("The client has said initialize already.") { ErrorCode = InvalidRequest };
        client.Introduce(p);
        if (p.ProcessId is { } process)
            _ = Parent.Gone(process).ContinueWith(_ => parent.TrySetResult(), TaskScheduler.Default);
        var encoding = Positions.Choose(client.Words("general.positionEncodings"));
        (documents, answers) = (new(encoding), new(client));
        var pull = client.Has("textDocument.diagnostic");
        if (!pull)
            publisher = new(documents, client, answers);
        return new(new() { PositionEncoding = Positions.Name(encoding), DiagnosticProvider = pull ? new("chordlang", true, false) : null },
            new("chordlang", typeof(LanguageServer).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "0"));
    }

    public void Initialized(Empty p)
    {
        if (client.Can("workspace.didChangeWatchedFiles.dynamicRegistration"))
            _ = client.Watch();
    }

    public object? Shutdown()
    {
        stopped = Open is not null;
        publisher?.Close();
        return null;
    }

    public void Exit() => exited.TrySetResult(stopped ? 0 : 1);

    public void DidOpen(DidOpenParams p) => Changed(Open.Open(p.TextDocument.Uri, p.TextDocument.Version, p.TextDocument.Text), p.TextDocument.Uri);

    public void DidChange(DidChangeParams p) => Changed(Open.Change(p.TextDocument.Uri, p.TextDocument.Version, p.ContentChanges), p.TextDocument.Uri);

    public void DidClose(DocumentParams p)
    {
        var others = Open.Close(p.TextDocument.Uri);
        publisher?.Clear(p.TextDocument.Uri);
        Changed(others, p.TextDocument.Uri);
    }

    public void DidChangeWatchedFiles(WatchedFilesParams p) => Changed(Open.Renewed([.. p.Changes.Select(c => Documents.PathOf(c.Uri)).OfType<string>()]), null);

    public DiagnosticReport Diagnostic(DiagnosticParams p, CancellationToken cancel) => On(p.TextDocument, d => $"{d.Stamp}" is var stamp && stamp == p.PreviousResultId
        ? new DiagnosticReport("unchanged", stamp) : new DiagnosticReport("full", stamp, answers.Diagnostics(d)), cancel) ?? new("full", "0", []);

    public Hover? Hover(PositionParams p, CancellationToken cancel) =>
        On(p.TextDocument, d => HoverAt.Of(d.Lesson, d.Positions.Offset(p.Position)) is { } hover ? answers.Hover(d, hover) : null, cancel);

    public IReadOnlyList<TextEditItem>? Formatting(DocumentParams p, CancellationToken cancel) =>
        On(p.TextDocument, d => Answers.Edits(d, Grammar.Formatting.Formatter.Format(d.Lesson.Tree)), cancel);

    public IReadOnlyList<TextEditItem>? RangeFormatting(RangeParams p, CancellationToken cancel) => On(p.TextDocument, d =>
    {
        var wanted = d.Positions.Span(p.Range);
        var (first, last) = (d.Text.Lines[d.Text.LineAt(wanted.Start)].Start, d.Text.Lines[d.Text.LineAt(wanted.End)].End);
        return Answers.Edits(d, Grammar.Formatting.Formatter.Format(d.Lesson.Tree).Where(e => e.Span.Start >= first && e.Span.End <= last));
    }, cancel);

    // A document that is not open has no answer; that is no error, for clients ask while they close.
    private T? On<T>(TextDocumentIdentifier id, Func<Document, T?> answer, CancellationToken cancel) where T : class
    {
        cancel.ThrowIfCancellationRequested();
        return Open.Find(id.Uri) is { } document ? answer(document) : null;
    }

    private void Changed(IReadOnlyList<Document> changed, string? uri)
    {
        if (publisher is null && changed.Any(d => d.Uri != uri) && client.Can("workspace.diagnostics.refreshSupport"))
            _ = client.RefreshDiagnostics();
        foreach (var document in changed)
            publisher?.Add(document);
    }
}
