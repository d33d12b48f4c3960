// The records of completion, signatures, tokens, hints and formatting while typing, and what serializes them.
using System.Text.Json;
using System.Text.Json.Serialization;

namespace ChordLang.Server.Lsp.Protocol;

/// <summary>Proposals. Incomplete is true where typing on brings others.</summary>
internal sealed record CompletionList(bool IsIncomplete, IReadOnlyList<CompletionItem> Items);

/// <summary>A proposal. InsertTextFormat: 1 plain text, 2 snippet. Its documentation comes when it is resolved; a client may then leave out all but label and data.</summary>
internal sealed record CompletionItem(
    string Label, CompletionData Data, int? Kind = null, string? SortText = null, string? FilterText = null, int? InsertTextFormat = null, TextEditItem? TextEdit = null,
    string? Detail = null, MarkupContent? Documentation = null);

/// <summary>What is needed to resolve a proposal.</summary>
internal sealed record CompletionData(string Uri, int Kind, string Text, int Offset);

/// <summary>The form of what is being typed.</summary>
internal sealed record SignatureHelp(IReadOnlyList<SignatureInformation> Signatures, int ActiveSignature, int ActiveParameter);

/// <inheritdoc cref="SignatureHelp"/>
internal sealed record SignatureInformation(string Label, MarkupContent Documentation, IReadOnlyList<ParameterInformation> Parameters);

/// <summary>A part of the form: where it stands in the label, from and to, in UTF-16 units; or its text, for clients that do not know places.</summary>
internal sealed record ParameterInformation(JsonElement Label, MarkupContent Documentation);

/// <summary>Colours, five numbers a token.</summary>
internal sealed record SemanticTokens(int[] Data, string? ResultId = null);

/// <summary>The client asks what changed since a result.</summary>
internal sealed record SemanticTokensDeltaParams(TextDocumentIdentifier TextDocument, string PreviousResultId);

/// <summary>What changed.</summary>
internal sealed record SemanticTokensDelta(string ResultId, IReadOnlyList<SemanticTokensEdit> Edits);

/// <summary>A replacement in the numbers.</summary>
internal sealed record SemanticTokensEdit(int Start, int DeleteCount, int[] Data);

/// <summary>A hint between the words.</summary>
internal sealed record InlayHint(TextPosition Position, string Label, bool PaddingLeft, bool PaddingRight, MarkupContent? Tooltip);

/// <summary>The client asks for formatting behind a character that was typed.</summary>
internal sealed record OnTypeFormattingParams(TextDocumentIdentifier TextDocument, TextPosition Position, string Ch);

/// <summary>Serializes them.</summary>
[JsonSerializable(typeof(CompletionList))]
[JsonSerializable(typeof(CompletionItem))]
[JsonSerializable(typeof(SignatureHelp))]
[JsonSerializable(typeof(SemanticTokens))]
[JsonSerializable(typeof(SemanticTokensDeltaParams))]
[JsonSerializable(typeof(SemanticTokensDelta))]
[JsonSerializable(typeof(IReadOnlyList<InlayHint>))]
[JsonSerializable(typeof(OnTypeFormattingParams))]
internal sealed partial class TypingJson : JsonSerializerContext;
