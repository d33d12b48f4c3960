// The messages of a session and of its open documents, by the names that the Language Server Protocol gives them.
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp;

/// <summary>What begins, changes and ends; features have their messages in <see cref="Handlers"/>. A handler ends before the next message is looked at, so that answers come in the order of the questions.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface ILanguageServer
{
    [JsonRpcMethod("initialize", UseSingleObjectParameterDeserialization = true)]
    InitializeResult Initialize(InitializeParams p);

    [JsonRpcMethod("initialized", UseSingleObjectParameterDeserialization = true)]
    void Initialized(Empty p);

    [JsonRpcMethod("shutdown")]
    object? Shutdown();

    [JsonRpcMethod("exit")]
    void Exit();

    [JsonRpcMethod("textDocument/didOpen", UseSingleObjectParameterDeserialization = true)]
    void DidOpen(DidOpenParams p);

    [JsonRpcMethod("textDocument/didChange", UseSingleObjectParameterDeserialization = true)]
    void DidChange(DidChangeParams p);

    [JsonRpcMethod("textDocument/didClose", UseSingleObjectParameterDeserialization = true)]
    void DidClose(DocumentParams p);

    [JsonRpcMethod("workspace/didChangeWatchedFiles", UseSingleObjectParameterDeserialization = true)]
    void DidChangeWatchedFiles(WatchedFilesParams p);

    [JsonRpcMethod("textDocument/diagnostic", UseSingleObjectParameterDeserialization = true)]
    DiagnosticReport Diagnostic(DiagnosticParams p, CancellationToken cancel);
}

/// <summary>A message without content that is read.</summary>
internal sealed record Empty;
