// One message content to be held against the official types, and how it is written down.
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using ChordLang.Server.Lsp;

namespace ChordLang.Server.Tests.Lsp.Payloads;

/// <summary>A payload.</summary>
/// <param name="Official">The official TypeScript type.</param>
/// <param name="Type">Our type.</param>
/// <param name="Value">An example with everything in it.</param>
/// <param name="Sent">True for what we send: it must be complete. What we receive is read in part, so there only names and types must be right.</param>
internal sealed record Payload(string Official, Type Type, object Value, bool Sent)
{
    /// <summary>Something that we send.</summary>
    public static Payload Out<T>(string official, T value) where T : notnull => new(official, typeof(T), value, true);

    /// <summary>Something that we receive.</summary>
    public static Payload In<T>(string official, T value) where T : notnull => new(official, typeof(T), value, false);

    /// <summary>As it goes over the wire.</summary>
    public string Json => JsonSerializer.Serialize(Value, (JsonTypeInfo)LspJson.Wire.GetTypeInfo(Type));
}
