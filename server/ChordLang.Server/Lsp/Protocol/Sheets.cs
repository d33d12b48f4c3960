// The records of `chordlang/sheet`, a request of our own: the sheet of an open document, line by line.
using System.Text.Json.Serialization;

namespace ChordLang.Server.Lsp.Protocol;

/// <summary>The client asks for the sheet of a document. Lines whose id it knows come without their drawing.</summary>
internal sealed record SheetParams(TextDocumentIdentifier TextDocument, IReadOnlyList<string>? Known = null);

/// <summary>A sheet.</summary>
/// <param name="Version">The version of the document that is drawn.</param>
/// <param name="Title">Its title, as text.</param>
/// <param name="Style">The style sheet of the drawings and of the page.</param>
/// <param name="Signs">An SVG <c>defs</c> element with the outlines that the drawings refer to.</param>
/// <param name="Lines">The lines, in order.</param>
internal sealed record SheetAnswer(int Version, string Title, string Style, string Signs, IReadOnlyList<SheetLine> Lines);

/// <summary>A line of a sheet.</summary>
/// <param name="Id">Equal for lines that are drawn alike, wherever their text stands.</param>
/// <param name="From">Where its text begins, in UTF-16 units; <c>data-from</c> and <c>data-to</c> in the drawing count from here.</param>
/// <param name="To">Where its text ends.</param>
/// <param name="Name">Which bars it holds, in words.</param>
/// <param name="Svg">The drawing, or null where the client knows it.</param>
/// <param name="Spoken">Its text alternative, or null likewise.</param>
internal sealed record SheetLine(string Id, int From, int To, string Name, string? Svg = null, IReadOnlyList<string>? Spoken = null);

/// <summary>Everything about sheets that goes over the wire.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    RespectRequiredConstructorParameters = true, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(SheetParams))]
[JsonSerializable(typeof(SheetAnswer))]
internal sealed partial class SheetJson : JsonSerializerContext;
