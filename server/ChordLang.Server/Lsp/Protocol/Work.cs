// The records of progress, configuration and folders, and what serializes them.
using System.Text.Json;
using System.Text.Json.Serialization;

namespace ChordLang.Server.Lsp.Protocol;

/// <summary>Asks the client for a place to show progress.</summary>
internal sealed record ProgressCreateParams(string Token);

/// <summary>How far some work is. The token is the client's or ours.</summary>
internal sealed record ProgressParams(JsonElement Token, WorkDoneProgress Value);

/// <summary>Kind: <c>begin</c>, <c>report</c> or <c>end</c>.</summary>
internal sealed record WorkDoneProgress(string Kind, string? Title = null, bool? Cancellable = null, string? Message = null, int? Percentage = null);

/// <summary>The client's user has had enough of some work.</summary>
internal sealed record ProgressCancelParams(JsonElement Token);

/// <summary>Asks for settings.</summary>
internal sealed record ConfigurationParams(IReadOnlyList<ConfigurationItem> Items);

/// <inheritdoc cref="ConfigurationParams"/>
internal sealed record ConfigurationItem(string Section);

/// <summary>Settings changed; some clients send them, some wait to be asked.</summary>
internal sealed record ConfigurationChangedParams(JsonElement? Settings = null);

/// <summary>Folders came or went.</summary>
internal sealed record FoldersChangedParams(FoldersChange Event);

/// <inheritdoc cref="FoldersChangedParams"/>
internal sealed record FoldersChange(IReadOnlyList<WorkspaceFolder> Added, IReadOnlyList<WorkspaceFolder> Removed);

/// <summary>Serializes them.</summary>
[JsonSerializable(typeof(ProgressCreateParams))]
[JsonSerializable(typeof(ProgressParams))]
[JsonSerializable(typeof(ProgressCancelParams))]
[JsonSerializable(typeof(ConfigurationParams))]
[JsonSerializable(typeof(ConfigurationChangedParams))]
[JsonSerializable(typeof(FoldersChangedParams))]
internal sealed partial class WorkJson : JsonSerializerContext;
