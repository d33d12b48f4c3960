// Work that takes long enough to be shown: told to the client from its beginning to its end.
using System.Text.Json;
using ChordLang.Server.Lsp.Protocol;

namespace ChordLang.Server.Lsp;

/// <summary>One piece of work that the client is shown.</summary>
internal sealed class Progress : IAsyncDisposable
{
    private readonly Client client;
    private readonly JsonElement? token;
    private int told = -1;

    private Progress(Client client, JsonElement? token) => (this.client, this.token) = (client, token);

    /// <summary>Begins to show work under the token that came with a request; without one, nothing is shown.</summary>
    public static async Task<Progress> Begin(Client client, JsonElement? token, string title, bool cancellable = true)
    {
        var progress = new Progress(client, token is { ValueKind: JsonValueKind.String or JsonValueKind.Number } ? token : null);
        await progress.Tell(new("begin", title, cancellable, null, 0)).ConfigureAwait(false);
        return progress;
    }

    /// <summary>Tells how much is done, in hundredths; the same number is told once.</summary>
    public Task Report(int percentage, string message) => percentage == told ? Task.CompletedTask : Tell(new("report", Percentage: told = percentage, Message: message));

    /// <summary>Ends.</summary>
    public async ValueTask DisposeAsync() => await Tell(new("end")).ConfigureAwait(false);

    private Task Tell(WorkDoneProgress value) => token is { } t ? client.Tell(new ProgressParams(t, value)) : Task.CompletedTask;
}
