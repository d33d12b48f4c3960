// The records of `chordlang/sheet` and `chordlang/heard`, requests of our own: the sheet of an open document, part by part, and what it sounds.
using System.Text.Json.Serialization;

namespace ChordLang.Server.Lsp.Protocol;

/// <summary>The client asks for the sheet of a document. What it knows by its id comes without content.</summary>
/// <param name="TextDocument">The document.</param>
/// <param name="Known">Ids of parts, and of the look, that the client still has.</param>
/// <param name="Large">True for large print.</param>
/// <param name="Numerals">True for the numeral of each chord under its name.</param>
/// <param name="Skeleton">True for a line that joins the chords which remain without decoration.</param>
/// <param name="Width">The width of a line in units of the drawing, where the page is narrower than paper.</param>
internal sealed record SheetParams(TextDocumentIdentifier TextDocument, IReadOnlyList<string>? Known = null, bool? Large = null, bool? Numerals = null, bool? Skeleton = null, double? Width = null);

/// <summary>A sheet.</summary>
/// <param name="Version">The version of the document that is drawn.</param>
/// <param name="Look">The look of the page.</param>
/// <param name="Parts">Its parts from top to bottom.</param>
internal sealed record SheetAnswer(int Version, SheetLook Look, IReadOnlyList<SheetPart> Parts);

/// <summary>How a sheet looks.</summary>
/// <param name="Id">Equal for equal looks.</param>
/// <param name="Style">The style sheet of the drawings and of the page, or null where the client knows it.</param>
/// <param name="Signs">An SVG <c>defs</c> element with the outlines that the drawings refer to, or null likewise.</param>
internal sealed record SheetLook(string Id, string? Style = null, string? Signs = null);

/// <summary>A part of a sheet: a line, or words around lines.</summary>
/// <param name="Id">Equal for parts that look and read alike, wherever their text stands.</param>
/// <param name="Html">Of words: the markup, or null where the client knows it.</param>
/// <param name="Line">The line, or null for words.</param>
internal sealed record SheetPart(string Id, string? Html = null, SheetLine? Line = null);

/// <summary>A line of a sheet.</summary>
/// <param name="From">Where its text begins, in UTF-16 units; <c>data-from</c> and <c>data-to</c> in the drawing count from here.</param>
/// <param name="To">Where its text ends.</param>
/// <param name="Name">Which bars it holds, in words.</param>
/// <param name="Svg">The drawing, or null where the client knows it.</param>
/// <param name="Spoken">Its text alternative, or null likewise.</param>
/// <param name="Margin">The words with which it is heard, as markup, or null likewise.</param>
internal sealed record SheetLine(int From, int To, string Name, string? Svg = null, IReadOnlyList<string>? Spoken = null, string? Margin = null);

/// <summary>The client asks for what a document sounds.</summary>
internal sealed record HeardParams(TextDocumentIdentifier TextDocument);

/// <summary>What a document sounds.</summary>
/// <param name="Version">The version of the document.</param>
/// <param name="Music">The piece as it is played through, as JSON.</param>
/// <param name="Practise">The bars that are offered for practice.</param>
internal sealed record HeardAnswer(int Version, string Music, IReadOnlyList<PractiseWords> Practise);

/// <summary>A bar that is offered for practice.</summary>
/// <param name="Bar">Its index.</param>
/// <param name="Words">What is written beside its line.</param>
internal sealed record PractiseWords(int Bar, string Words);

/// <summary>Everything about sheets that goes over the wire.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    RespectRequiredConstructorParameters = true, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(SheetParams))]
[JsonSerializable(typeof(SheetAnswer))]
[JsonSerializable(typeof(HeardParams))]
[JsonSerializable(typeof(HeardAnswer))]
internal sealed partial class SheetJson : JsonSerializerContext;
