// What we know of the client, and what we send it without being asked.
using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using ChordLang.Server.Lsp.Protocol;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp;

/// <summary>The other end of the wire.</summary>
internal sealed class Client(JsonRpc rpc)
{
    private JsonElement? capabilities, options;

    /// <summary>Takes what the client says of itself.</summary>
    public void Introduce(InitializeParams p) => (capabilities, options) = (p.Capabilities, p.InitializationOptions);

    /// <summary>True where a capability is given and true; its path has dots.</summary>
    public bool Can(string path) => At(capabilities, path) is { ValueKind: JsonValueKind.True };

    /// <summary>True where a capability is given at all.</summary>
    public bool Has(string path) => At(capabilities, path) is { ValueKind: not JsonValueKind.Null };

    /// <summary>The words of a capability that is a list.</summary>
    public IEnumerable<string?> Words(string path) => At(capabilities, path) is { ValueKind: JsonValueKind.Array } list
        ? list.EnumerateArray().Where(w => w.ValueKind == JsonValueKind.String).Select(w => w.GetString()) : [];

    /// <summary>An initialization option that is a text, or null.</summary>
    public string? Option(string path) => At(options, path) is { ValueKind: JsonValueKind.String } text ? text.GetString() : null;

    /// <summary>An initialization option that is a whole number, or null.</summary>
    public int? OptionNumber(string path) => At(options, path) is { ValueKind: JsonValueKind.Number } number && number.TryGetInt32(out var n) ? n : null;

    /// <summary>False where an initialization option is false; true where it is not given.</summary>
    public bool Wants(string path) => At(options, path) is not { ValueKind: JsonValueKind.False };

    /// <summary>True only where an initialization option is given and true.</summary>
    public bool Asks(string path) => At(options, path) is { ValueKind: JsonValueKind.True };

    /// <summary>Sends findings.</summary>
    public Task Publish(PublishDiagnosticsParams findings) => Notify("textDocument/publishDiagnostics", findings);

    /// <summary>Writes into the client's log.</summary>
    public Task Log(string message) => Notify("window/logMessage", new LogMessageParams(1, message));

    /// <summary>Shows the user a warning.</summary>
    public Task Show(string message) => Notify("window/showMessage", new LogMessageParams(2, message));

    /// <summary>A capability that is a whole number, or null.</summary>
    public int? Number(string path) => At(capabilities, path) is { ValueKind: JsonValueKind.Number } number && number.TryGetInt32(out var value) ? value : null;

    /// <summary>What the client gave with initialize, or null.</summary>
    public JsonElement? Options => options;

    /// <summary>Shows how far some work is.</summary>
    public Task Tell(ProgressParams progress) => Notify("$/progress", progress);

    /// <summary>Asks for a place to show work that no request began; its token, or null where the client has none.</summary>
    public async Task<JsonElement?> CreateProgress(string token) =>
        Can("window.workDoneProgress") && await Invoke("window/workDoneProgress/create", new ProgressCreateParams(token)).ConfigureAwait(false) ? JsonSerializer.SerializeToElement(token, LspJson.Default.String) : null;

    /// <summary>The user's settings under a name, or null.</summary>
    public async Task<JsonElement?> Configuration(string section) =>
        await Answer("workspace/configuration", new ConfigurationParams([new(section)])).ConfigureAwait(false) is { ValueKind: JsonValueKind.Array } all && all.GetArrayLength() == 1 ? all[0] : null;

    /// <summary>Asks to be told of something.</summary>
    public Task Register(Registration registration) => Invoke("client/registerCapability", new RegistrationParams([registration]));

    /// <summary>Tells the client to ask again.</summary>
    public Task Refresh(string method) => Invoke(method, null);

    /// <summary>Asks to be told of files that change on disk.</summary>
    public Task Watch() => Invoke("client/registerCapability",
        new RegistrationParams([new("chordlang-files", "workspace/didChangeWatchedFiles", new([new("**/*.chl"), new("**/chordlang.json")]))]));

    /// <summary>Asks the client to change documents.</summary>
    public Task Apply(ApplyWorkspaceEditParams edit) => Invoke("workspace/applyEdit", edit);

    /// <summary>Tells the client to ask for findings again.</summary>
    public Task RefreshDiagnostics() => Invoke("workspace/diagnostic/refresh", null);

    // The serializer knows every type that is sent; the warning is for those that it might not know.
    [UnconditionalSuppressMessage("Trimming", "IL2026", Justification = "All types that are sent are in LspJson.")]
    private async Task Notify(string method, object argument)
    {
        try
        {
            await rpc.NotifyWithParameterObjectAsync(method, argument).ConfigureAwait(false);
        }
        catch (Exception e) when (e is ConnectionLostException or ObjectDisposedException)
        {
            // The client has gone; the session ends by itself.
        }
    }

    // True where the client has answered, be it with nothing.
    [UnconditionalSuppressMessage("Trimming", "IL2026", Justification = "All types that are sent are in LspJson.")]
    private async Task<bool> Invoke(string method, object? argument)
    {
        try
        {
            await rpc.InvokeWithParameterObjectAsync<JsonElement?>(method, argument).ConfigureAwait(false);
            return true;
        }
        catch (Exception e) when (e is ConnectionLostException or ObjectDisposedException or RemoteInvocationException)
        {
            // A client that refuses, or has gone, loses a convenience and nothing else.
            return false;
        }
    }

    [UnconditionalSuppressMessage("Trimming", "IL2026", Justification = "All types that are sent are in LspJson.")]
    private async Task<JsonElement?> Answer(string method, object? argument)
    {
        try
        {
            return await rpc.InvokeWithParameterObjectAsync<JsonElement?>(method, argument).ConfigureAwait(false);
        }
        catch (Exception e) when (e is ConnectionLostException or ObjectDisposedException or RemoteInvocationException)
        {
            // A client that refuses, or has gone, loses a convenience and nothing else.
            return null;
        }
    }

    private static JsonElement? At(JsonElement? root, string path)
    {
        if (root is not { } at)
            return null;
        foreach (var part in path.Split('.'))
            if (at.ValueKind != JsonValueKind.Object || !at.TryGetProperty(part, out at))
                return null;
        return at;
    }
}
