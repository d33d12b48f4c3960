// Answers the client: changes are applied in order, requests read the version that was there when they came.
using System.Reflection;
using ChordLang.Server.Lsp.Handlers;
using ChordLang.Server.Lsp.Protocol;

namespace ChordLang.Server.Lsp;

/// <summary>The server of one client.</summary>
internal sealed class LanguageServer(Conversation conversation, IReadOnlyList<Handler> handlers) : ILanguageServer
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(400);
    private readonly TaskCompletionSource<int> exited = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly TaskCompletionSource parent = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly Client client = conversation.Client;
    private Publisher? publisher;

    /// <summary>Ends with the exit code when the client says exit: 0 after a shutdown, else 1.</summary>
    public Task<int> Exited => exited.Task;

    /// <summary>Ends when the process that started us does; never where that is not known.</summary>
    public Task ParentGone => parent.Task;

    private Documents Open => conversation.Documents;

    public InitializeResult Initialize(InitializeParams p)
    {
        var encoding = conversation.Begin(p);
        if (p.ProcessId is { } process)
            _ = Parent.Gone(process).ContinueWith(_ => parent.TrySetResult(), TaskScheduler.Default);
        conversation.Renewed = documents => Changed(documents, null);
        var pull = client.Has("textDocument.diagnostic");
        if (!pull)
            publisher = new(Open, client, conversation.Answers);
        var offered = new ServerCapabilities { PositionEncoding = Positions.Name(encoding), DiagnosticProvider = pull ? new("chordlang", true, false) : null };
        foreach (var handler in handlers)
            handler.Offer(offered);
        return new(offered, new("chordlang", typeof(LanguageServer).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "0"));
    }

    public void Initialized(Empty p)
    {
        if (client.Can("workspace.didChangeWatchedFiles.dynamicRegistration"))
            _ = client.Watch();
        foreach (var handler in handlers)
            handler.Ready();
    }

    public object? Shutdown()
    {
        conversation.Stop();
        publisher?.Close();
        foreach (var handler in handlers)
            handler.Stop();
        return null;
    }

    public void Exit() => exited.TrySetResult(conversation.Stopped ? 0 : 1);

    public void DidOpen(DidOpenParams p) => Changed(Open.Open(p.TextDocument.Uri, p.TextDocument.Version, p.TextDocument.Text), p.TextDocument.Uri);

    public void DidChange(DidChangeParams p) => Changed(Open.Change(p.TextDocument.Uri, p.TextDocument.Version, p.ContentChanges), p.TextDocument.Uri);

    public void DidClose(DocumentParams p)
    {
        var others = Open.Close(p.TextDocument.Uri);
        publisher?.Clear(p.TextDocument.Uri);
        foreach (var handler in handlers)
            handler.Closed(p.TextDocument.Uri);
        Changed(others, p.TextDocument.Uri);
    }

    public void DidChangeWatchedFiles(WatchedFilesParams p)
    {
        List<string> paths = [.. p.Changes.Select(c => Documents.PathOf(c.Uri)).OfType<string>()];
        Changed(Open.Renewed(paths), null);
        foreach (var handler in handlers)
            handler.FilesChanged(paths);
    }

    public DiagnosticReport Diagnostic(DiagnosticParams p, CancellationToken cancel) => conversation.On(p.TextDocument, d =>
    {
        // What is not exact yet is said only to a client that can be told to ask again.
        var exact = d.IsExact || !client.Can("workspace.diagnostics.refreshSupport");
        var id = exact ? $"{d.Stamp}" : $"{d.Stamp} at once";
        if (id == p.PreviousResultId)
            return new DiagnosticReport("unchanged", id);
        var findings = exact ? d.Lesson.Findings : d.FindingsNow;
        if (!exact)
            _ = Task.Run(() => Settle(d), CancellationToken.None);
        return new DiagnosticReport("full", id, conversation.Answers.Diagnostics(d, findings));
    }, cancel) ?? new("full", "0", []);

    // The whole of a long piece is checked when nothing was typed for a while; where that says more, the client is told.
    private async Task Settle(Document d)
    {
        if (!d.Opening)
            await Task.Delay(Pause).ConfigureAwait(false);
        if (!Open.IsCurrent(d) || d.Lesson.IsChecked)
            return;
        var before = d.FindingsNow;
        if (!d.Lesson.Findings.Select(Key).SequenceEqual(before.Select(Key)) && Open.IsCurrent(d))
            await client.RefreshDiagnostics().ConfigureAwait(false);
        static (string, string, Grammar.Text.Span) Key(Checks.Catalogue.Finding f) => (f.Code, f.Message, f.Span);
    }

    private void Changed(IReadOnlyList<Document> changed, string? uri)
    {
        if (publisher is null && changed.Any(d => d.Uri != uri) && client.Can("workspace.diagnostics.refreshSupport"))
            _ = client.RefreshDiagnostics();
        foreach (var document in changed)
            publisher?.Add(document);
    }
}
