// Sends findings to clients that do not ask for them: in the background, newest version only, and of the bar being typed a moment later.
using System.Threading.Channels;

namespace ChordLang.Server.Lsp;

/// <summary>Works out findings and sends them. What is superseded while it waits is never worked out.</summary>
internal sealed class Publisher
{
    // Long enough for the next key, short enough to be there when one looks up. A client may set it by the option holdBack, in milliseconds.
    private const int UsualHoldBack = 400, LongestHoldBack = 10_000;

    // Before the whole of a long piece is checked.
    private static readonly TimeSpan ShortestPause = TimeSpan.FromMilliseconds(150);

    private readonly Channel<(string Uri, Document? Document, bool Settled)> queue = Channel.CreateUnbounded<(string, Document?, bool)>(new() { SingleReader = true });
    private readonly Dictionary<string, HashSet<(string Code, string Message)>> shown = new(StringComparer.Ordinal);
    private readonly TimeSpan holdBack;
    private readonly Documents documents;
    private readonly Client client;
    private readonly Answers answers;

    /// <summary>Starts the work.</summary>
    public Publisher(Documents documents, Client client, Answers answers)
    {
        (this.documents, this.client, this.answers) = (documents, client, answers);
        holdBack = TimeSpan.FromMilliseconds(Math.Clamp(client.OptionNumber("holdBack") ?? UsualHoldBack, 0, LongestHoldBack));
        Done = Task.Run(Work);
    }

    /// <summary>Ends when the queue is closed and empty.</summary>
    public Task Done { get; }

    /// <summary>A version whose findings are to be sent.</summary>
    public void Add(Document document) => queue.Writer.TryWrite((document.Uri, document, false));

    /// <summary>A document that was closed: what was sent of it is taken back.</summary>
    public void Clear(string uri) => queue.Writer.TryWrite((uri, null, false));

    /// <summary>No more will come.</summary>
    public void Close() => queue.Writer.TryComplete();

    private async Task Work()
    {
        await foreach (var (uri, document, settled) in queue.Reader.ReadAllAsync().ConfigureAwait(false))
            if (document is null)
            {
                shown.Remove(uri);
                await client.Publish(new(uri, null, [])).ConfigureAwait(false);
            }
            else if (documents.IsCurrent(document))
                await Send(document, settled).ConfigureAwait(false);
    }

    private async Task Send(Document document, bool settled)
    {
        try
        {
            var exact = settled || document.IsExact;
            var (findings, before) = (exact ? document.Lesson.Findings : document.FindingsNow, shown.GetValueOrDefault(document.Uri));
            // What was told already stays: a finding must not flicker while one types beside it.
            var now = settled || holdBack == TimeSpan.Zero || document.Typed?.Bars(document.Lesson) is not { } typing ? findings
                : findings.RemoveAll(f => typing.HoldsBack(document.Lesson, f) && before?.Contains((f.Code, f.Message)) != true);
            if (!documents.IsCurrent(document))
                return;
            shown[document.Uri] = [.. now.Select(f => (f.Code, f.Message))];
            await client.Publish(new(document.Uri, document.Version, answers.Diagnostics(document, now))).ConfigureAwait(false);
            if (now.Length < findings.Length || !exact)
                _ = Task.Run(() => Later(document));
        }
#pragma warning disable CA1031 // One document that breaks us must not silence the others.
        catch (Exception e)
#pragma warning restore CA1031
        {
            await client.Log($"The findings of {document.Uri} could not be worked out: {e.GetType().Name}: {e.Message}").ConfigureAwait(false);
        }
    }

    private async Task Later(Document document)
    {
        // Nobody types yet where a text was just opened.
        if (!document.Opening)
            await Task.Delay(holdBack > ShortestPause ? holdBack : ShortestPause).ConfigureAwait(false);
        if (!documents.IsCurrent(document))
            return;
        // Here and not in the queue: the next key must not wait for the whole of a long piece.
        _ = document.Lesson.Findings;
        queue.Writer.TryWrite((document.Uri, document, true));
    }
}
