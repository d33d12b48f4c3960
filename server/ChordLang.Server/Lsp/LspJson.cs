// Everything that goes over the wire, known at build time: compiled ahead of time, nothing else could be written or read.
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using ChordLang.Server.Lsp.Protocol;

namespace ChordLang.Server.Lsp;

/// <summary>The serializer of the protocol. A missing or null property that must be there is an error of the sender.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    RespectRequiredConstructorParameters = true, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(JsonElement))]
[JsonSerializable(typeof(JsonElement[]))]
[JsonSerializable(typeof(int))]
[JsonSerializable(typeof(long))]
[JsonSerializable(typeof(string))]
[JsonSerializable(typeof(object))]
[JsonSerializable(typeof(StreamJsonRpc.RequestId))]
[JsonSerializable(typeof(StreamJsonRpc.Protocol.CommonErrorData))]
[JsonSerializable(typeof(Empty))]
[JsonSerializable(typeof(InitializeParams))]
[JsonSerializable(typeof(InitializeResult))]
[JsonSerializable(typeof(DidOpenParams))]
[JsonSerializable(typeof(DidChangeParams))]
[JsonSerializable(typeof(DocumentParams))]
[JsonSerializable(typeof(PositionParams))]
[JsonSerializable(typeof(RangeParams))]
[JsonSerializable(typeof(WatchedFilesParams))]
[JsonSerializable(typeof(RegistrationParams))]
[JsonSerializable(typeof(LogMessageParams))]
[JsonSerializable(typeof(DiagnosticParams))]
[JsonSerializable(typeof(DiagnosticReport))]
[JsonSerializable(typeof(PublishDiagnosticsParams))]
[JsonSerializable(typeof(Hover))]
[JsonSerializable(typeof(IReadOnlyList<TextEditItem>))]
internal sealed partial class LspJson : JsonSerializerContext
{
    /// <summary>The options of the wire. A feature may bring a context of its own; here is its line.</summary>
    public static JsonSerializerOptions Wire => field ??= new(Default.Options)
    {
        TypeInfoResolver = JsonTypeInfoResolver.Combine(
            Default, StructureJson.Default, TypingJson.Default, WorkJson.Default, ActionJson.Default, SheetJson.Default),
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };
}
