// Sends findings to clients that do not ask for them: in the background, newest version only.
using System.Threading.Channels;

namespace ChordLang.Server.Lsp;

/// <summary>Works out findings and sends them. What is superseded while it waits is never worked out.</summary>
internal sealed class Publisher
{
    private readonly Channel<(string Uri, Document? Document)> queue = Channel.CreateUnbounded<(string, Document?)>(new() { SingleReader = true });
    private readonly Documents documents;
    private readonly Client client;
    private readonly Answers answers;

    /// <summary>Starts the work.</summary>
    public Publisher(Documents documents, Client client, Answers answers)
    {
        (this.documents, this.client, this.answers) = (documents, client, answers);
        Done = Task.Run(Work);
    }

    /// <summary>Ends when the queue is closed and empty.</summary>
    public Task Done { get; }

    /// <summary>A version whose findings are to be sent.</summary>
    public void Add(Document document) => queue.Writer.TryWrite((document.Uri, document));

    /// <summary>A document that was closed: what was sent of it is taken back.</summary>
    public void Clear(string uri) => queue.Writer.TryWrite((uri, null));

    /// <summary>No more will come.</summary>
    public void Close() => queue.Writer.TryComplete();

    private async Task Work()
    {
        await foreach (var (uri, document) in queue.Reader.ReadAllAsync().ConfigureAwait(false))
            if (document is null)
                await client.Publish(new(uri, null, [])).ConfigureAwait(false);
            else if (documents.IsCurrent(document))
                await Send(document).ConfigureAwait(false);
    }

    private async Task Send(Document document)
    {
        try
        {
            var findings = answers.Diagnostics(document);
            if (documents.IsCurrent(document))
                await client.Publish(new(document.Uri, document.Version, findings)).ConfigureAwait(false);
        }
#pragma warning disable CA1031 // One document that breaks us must not silence the others.
        catch (Exception e)
#pragma warning restore CA1031
        {
            await client.Log($"The findings of {document.Uri} could not be worked out: {e.GetType().Name}: {e.Message}").ConfigureAwait(false);
        }
    }
}
