// The records of code actions and commands of the Language Server Protocol 3.17.
using System.Text.Json;
using System.Text.Json.Serialization;

namespace ChordLang.Server.Lsp.Protocol;

/// <summary>The client asks for actions in a stretch. The findings that it names are not read: some clients count bytes there.</summary>
internal sealed record CodeActionParams(TextDocumentIdentifier TextDocument, TextRange Range, CodeActionContext? Context = null);

/// <inheritdoc cref="CodeActionParams"/>
internal sealed record CodeActionContext(IReadOnlyList<string>? Only = null);

/// <summary>An action: with its edit, or with data by which its edit can be asked for.</summary>
internal sealed record CodeAction(string Title, string Kind, IReadOnlyList<Diagnostic>? Diagnostics, bool? IsPreferred, WorkspaceEdit? Edit, ActionData? Data = null);

/// <summary>Says which action of which version is meant; offsets are ours.</summary>
internal sealed record ActionData(string Uri, long Stamp, int Start, int End, string Id);

/// <summary>The client asks for the edit of an action; of what it hands back only this is read.</summary>
internal sealed record CodeActionToResolve(ActionData Data);

/// <summary>The client runs a command.</summary>
internal sealed record ExecuteCommandParams(string Command, IReadOnlyList<JsonElement>? Arguments = null);

/// <summary>What our commands take: one object, of which each command reads its own part.</summary>
internal sealed record CommandArguments(string? Uri = null, TextRange? Range = null, int? By = null, string? To = null, bool? Brief = null, string? Code = null);

/// <summary>We ask the client to change documents.</summary>
internal sealed record ApplyWorkspaceEditParams(string Label, WorkspaceEdit Edit);

/// <summary>Everything about actions that goes over the wire.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    RespectRequiredConstructorParameters = true, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(CodeActionParams))]
[JsonSerializable(typeof(IReadOnlyList<CodeAction>))]
[JsonSerializable(typeof(CodeActionToResolve))]
[JsonSerializable(typeof(ExecuteCommandParams))]
[JsonSerializable(typeof(CommandArguments))]
[JsonSerializable(typeof(ApplyWorkspaceEditParams))]
internal sealed partial class ActionJson : JsonSerializerContext;
