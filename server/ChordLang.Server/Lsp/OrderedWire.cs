// The frames of the wire, with the answers in the order of the questions: the threads that send them overtake each other else.
using System.Collections.Frozen;
using System.Text.Json;
using StreamJsonRpc;
using StreamJsonRpc.Protocol;

namespace ChordLang.Server.Lsp;

/// <summary>Reads and writes messages; an answer waits until all questions before its own have theirs.</summary>
internal sealed class OrderedWire(Stream output, Stream input, IJsonRpcMessageFormatter formatter) : HeaderDelimitedMessageHandler(output, input, formatter)
{
    /// <summary>What may read a whole library before it answers; nobody else's answer waits for that.</summary>
    public static FrozenSet<string> Long { get; } = new[] { "workspace/symbol", "textDocument/references", "textDocument/rename", "codeLens/resolve" }.ToFrozenSet(StringComparer.Ordinal);

    // Questions without an answer written, oldest first.
    private readonly LinkedList<Question> questions = [];

    /// <inheritdoc/>
    protected override async ValueTask<JsonRpcMessage?> ReadCoreAsync(CancellationToken cancellationToken)
    {
        var message = await base.ReadCoreAsync(cancellationToken).ConfigureAwait(false);
        if (message is JsonRpcRequest { IsResponseExpected: true, Method: { } method } asked && !Long.Contains(method))
            lock (questions)
                questions.AddLast(new Question(asked.RequestId));
        return message;
    }

    /// <inheritdoc/>
    protected override void Write(JsonRpcMessage content, CancellationToken cancellationToken)
    {
        // Only one thread at a time is here; another may read meanwhile.
        lock (questions)
        {
            if (content is not (JsonRpcResult or JsonRpcError) || Of(((IJsonRpcMessageWithId)content).RequestId) is not { } question)
            {
                base.Write(content, cancellationToken);
                return;
            }
            question.Answer = content;
            while (questions.First?.Value is { Answer: { } next })
            {
                questions.RemoveFirst();
                if (ReferenceEquals(next, content))
                    base.Write(content, cancellationToken);
                else
                    WriteHeld(next);
            }
        }
    }

    private Question? Of(RequestId id)
    {
        foreach (var question in questions)
            if (question.Answer is null && question.Id == id)
                return question;
        return null;
    }

    // An answer that cannot be written is that question's fault and not that of the one whose turn this is.
    private void WriteHeld(JsonRpcMessage answer)
    {
        try
        {
            base.Write(answer, CancellationToken.None);
        }
        catch (Exception e) when (e is JsonException or NotSupportedException or InvalidOperationException)
        {
            var error = ((IJsonRpcMessageFactory)Formatter).CreateErrorMessage();
            (error.RequestId, error.Error) = (((IJsonRpcMessageWithId)answer).RequestId, new() { Code = JsonRpcErrorCode.InternalError, Message = "The answer could not be written." });
            base.Write(error, CancellationToken.None);
        }
    }

    private sealed class Question(RequestId id)
    {
        public RequestId Id { get; } = id;

        public JsonRpcMessage? Answer { get; set; }
    }
}
