// The small records that most messages of the Language Server Protocol 3.17 are made of.
using System.Text.Json.Serialization;

namespace ChordLang.Server.Lsp.Protocol;

/// <summary>A place in a document, from 0; characters count in the negotiated encoding.</summary>
internal sealed record TextPosition(int Line, int Character);

/// <summary>A stretch of a document; the end is not part of it.</summary>
internal sealed record TextRange(TextPosition Start, TextPosition End);

/// <summary>A stretch of some document.</summary>
internal sealed record Location(string Uri, TextRange Range);

/// <summary>Names a document.</summary>
internal sealed record TextDocumentIdentifier(string Uri);

/// <summary>Names a version of a document; null where it is not open.</summary>
internal sealed record VersionedTextDocumentIdentifier(string Uri, int? Version = null)
{
    // The protocol wants the null to be written.
    [JsonIgnore(Condition = JsonIgnoreCondition.Never)]
    public int? Version { get; init; } = Version;
}

/// <summary>A replacement of one stretch.</summary>
internal sealed record TextEditItem(TextRange Range, string NewText);

/// <summary>Edits of one version of a document.</summary>
internal sealed record TextDocumentEdit(VersionedTextDocumentIdentifier TextDocument, IReadOnlyList<TextEditItem> Edits);

/// <summary>Edits of documents: in the one form or the other, as the client can.</summary>
internal sealed record WorkspaceEdit(IReadOnlyDictionary<string, IReadOnlyList<TextEditItem>>? Changes = null, IReadOnlyList<TextDocumentEdit>? DocumentChanges = null);

/// <summary>Text to show: <c>markdown</c> or <c>plaintext</c>.</summary>
internal sealed record MarkupContent(string Kind, string Value);

/// <summary>What a request about a document carries.</summary>
internal sealed record DocumentParams(TextDocumentIdentifier TextDocument);

/// <summary>What a request about a place carries.</summary>
internal sealed record PositionParams(TextDocumentIdentifier TextDocument, TextPosition Position);

/// <summary>What a request about a stretch carries.</summary>
internal sealed record RangeParams(TextDocumentIdentifier TextDocument, TextRange Range);

/// <summary>A line for the client's log. Type: 1 error, 2 warning, 3 information, 4 log.</summary>
internal sealed record LogMessageParams(int Type, string Message);

/// <summary>A request to register for notifications.</summary>
internal sealed record RegistrationParams(IReadOnlyList<Registration> Registrations);

/// <inheritdoc cref="RegistrationParams"/>
internal sealed record Registration(string Id, string Method, WatchedFilesOptions? RegisterOptions = null);

/// <inheritdoc cref="RegistrationParams"/>
internal sealed record WatchedFilesOptions(IReadOnlyList<FileSystemWatcherItem> Watchers);

/// <inheritdoc cref="RegistrationParams"/>
internal sealed record FileSystemWatcherItem(string GlobPattern);

/// <summary>Files that changed on disk.</summary>
internal sealed record WatchedFilesParams(IReadOnlyList<FileEvent> Changes);

/// <summary>One of them. Type: 1 created, 2 changed, 3 deleted.</summary>
internal sealed record FileEvent(string Uri, int Type);
