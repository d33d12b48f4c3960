// The records of names, outlines, folds, selections, links and lenses, and what serializes them.
using System.Text.Json;
using System.Text.Json.Serialization;

namespace ChordLang.Server.Lsp.Protocol;

/// <summary>A part of a document. Kind: 3 namespace (section), 19 object (bar), 23 struct (shape).</summary>
internal sealed record DocumentSymbol(string Name, string? Detail, int Kind, TextRange Range, TextRange SelectionRange, IReadOnlyList<DocumentSymbol>? Children);

/// <summary>The same, flat, for clients that know no tree, and for whole libraries.</summary>
internal sealed record SymbolInformation(string Name, int Kind, Location Location, string? ContainerName);

/// <summary>The client asks for symbols of the library.</summary>
internal sealed record WorkspaceSymbolParams(string Query, JsonElement? WorkDoneToken = null);

/// <summary>A stretch that can be folded away, by lines.</summary>
internal sealed record FoldingRange(int StartLine, int EndLine, string? Kind, string? CollapsedText);

/// <summary>The client asks how a selection grows.</summary>
internal sealed record SelectionRangeParams(TextDocumentIdentifier TextDocument, IReadOnlyList<TextPosition> Positions);

/// <summary>A selection and what it grows to.</summary>
internal sealed record SelectionRange(TextRange Range, SelectionRange? Parent);

/// <summary>The client asks who uses a name.</summary>
internal sealed record ReferenceParams(TextDocumentIdentifier TextDocument, TextPosition Position, ReferenceContext Context, JsonElement? WorkDoneToken = null);

/// <inheritdoc cref="ReferenceParams"/>
internal sealed record ReferenceContext(bool IncludeDeclaration);

/// <summary>A place to light up. Kind: 2 read, 3 write.</summary>
internal sealed record DocumentHighlight(TextRange Range, int Kind);

/// <summary>The client asks for a new name.</summary>
internal sealed record RenameParams(TextDocumentIdentifier TextDocument, TextPosition Position, string NewName, JsonElement? WorkDoneToken = null);

/// <summary>What can be renamed here.</summary>
internal sealed record PrepareRenameResult(TextRange Range, string Placeholder);

/// <summary>A place that leads elsewhere.</summary>
internal sealed record DocumentLink(TextRange Range, string? Target, string? Tooltip);

/// <summary>A line of words above a line. Without a command it has to be resolved.</summary>
internal sealed record CodeLens(TextRange Range, LensData? Data = null, Command? Command = null);

/// <summary>What a lens is about.</summary>
internal sealed record LensData(string Uri, string? Shape = null);

/// <summary>Something to do; one without a name is only read.</summary>
internal sealed record Command(string Title, [property: JsonPropertyName("command")] string Name, IReadOnlyList<JsonElement>? Arguments = null);

/// <summary>Serializes them.</summary>
[JsonSerializable(typeof(DocumentSymbol[]))]
[JsonSerializable(typeof(SymbolInformation[]))]
[JsonSerializable(typeof(WorkspaceSymbolParams))]
[JsonSerializable(typeof(IReadOnlyList<FoldingRange>))]
[JsonSerializable(typeof(SelectionRangeParams))]
[JsonSerializable(typeof(IReadOnlyList<SelectionRange>))]
[JsonSerializable(typeof(ReferenceParams))]
[JsonSerializable(typeof(IReadOnlyList<Location>))]
[JsonSerializable(typeof(IReadOnlyList<DocumentHighlight>))]
[JsonSerializable(typeof(RenameParams))]
[JsonSerializable(typeof(PrepareRenameResult))]
[JsonSerializable(typeof(WorkspaceEdit))]
[JsonSerializable(typeof(IReadOnlyList<DocumentLink>))]
[JsonSerializable(typeof(IReadOnlyList<CodeLens>))]
[JsonSerializable(typeof(CodeLens))]
internal sealed partial class StructureJson : JsonSerializerContext;
