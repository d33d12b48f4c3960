// One client from its first byte to its last: the wire, its faults, and the exit code.
using System.Diagnostics.CodeAnalysis;
using System.Text;
using System.Text.Json;
using ChordLang.Server.Lsp.Handlers;
using Microsoft.VisualStudio.Threading;
using StreamJsonRpc;
using StreamJsonRpc.Protocol;

namespace ChordLang.Server.Lsp;

/// <summary>Runs the language server.</summary>
internal static class Session
{
    // For what was said before the end and is still on its way through us.
    private static readonly TimeSpan LastWord = TimeSpan.FromMilliseconds(500);

    /// <summary>Serves one client until it says exit, its stream ends, or the process that started us does.</summary>
    /// <param name="input">What the client writes.</param>
    /// <param name="output">What the client reads.</param>
    /// <param name="log">Where trouble goes that the client cannot be told.</param>
    /// <returns>0 after a shutdown and exit, else 1.</returns>
    public static async Task<int> Run(Stream input, Stream output, Action<string> log)
    {
        await using var watched = new EndingStream(input);
        await using var handler = new OrderedWire(output, watched, Formatter());
        using var rpc = new Wire(handler, log) { SynchronizationContext = new NonConcurrentSynchronizationContext(sticky: false) };
        var conversation = new Conversation(new(rpc));
        var handlers = Handler.All(conversation);
        var server = new LanguageServer(conversation, handlers);
        rpc.AddLocalRpcTarget(RpcTargetMetadata.FromShape<ILanguageServer>(), server, null);
        foreach (var answering in handlers)
            rpc.AddLocalRpcTarget(answering.Messages, answering, null);
        rpc.StartListening();
        try
        {
            var first = await Task.WhenAny(server.Exited, rpc.Completion, watched.Ended, server.ParentGone).ConfigureAwait(false);
            await first.ConfigureAwait(false);
            // A client may close its end right behind exit, before that was heard.
            if (conversation.Stopped)
                await Task.WhenAny(server.Exited, Task.Delay(LastWord)).ConfigureAwait(false);
        }
        // Malformed traffic ends the connection, as the protocol has no way back to the next message.
#pragma warning disable CA1031 // What a wire of garbage makes its reader throw is no closed list: an unknown character set, a number too large.
        catch (Exception e)
#pragma warning restore CA1031
        {
            log($"the client's messages could not be read any more: {e.Message}");
        }
        return server.Exited.IsCompletedSuccessfully ? await server.Exited.ConfigureAwait(false) : 1;
    }

    [UnconditionalSuppressMessage("Trimming", "IL2026", Justification = "All types that are sent and read are in LspJson.")]
    [UnconditionalSuppressMessage("AOT", "IL3050", Justification = "All types that are sent and read are in LspJson.")]
    private static SystemTextJsonFormatter Formatter() => new() { JsonSerializerOptions = LspJson.Wire };

    // Faults of one request are told in its answer, without types and stack traces; the session goes on.
    private sealed class Wire(IJsonRpcMessageHandler handler, Action<string> log) : JsonRpc(handler)
    {
        protected override JsonRpcError.ErrorDetail CreateErrorDetails(JsonRpcRequest request, Exception exception)
        {
            if (exception is LocalRpcException local)
                return new() { Code = (JsonRpcErrorCode)local.ErrorCode, Message = local.Message };
            if (exception is OperationCanceledException)
                return base.CreateErrorDetails(request, exception);
            // Text that is no Unicode is seen when it is read, and not before.
            var malformed = exception is JsonException or RpcArgumentDeserializationException or InvalidOperationException { InnerException: DecoderFallbackException } or InvalidOperationException { Source: "System.Text.Json.Rethrowable" };
            if (!malformed)
                log($"{request.Method} broke off: {exception.GetType().Name}: {exception.Message}");
            return new() { Code = malformed ? JsonRpcErrorCode.InvalidParams : JsonRpcErrorCode.InternalError, Message = malformed ? $"The parameters of {request.Method} could not be read." : $"{request.Method} broke off: {exception.Message}" };
        }
    }
}
