// JSON with the line of each part, because a setting that is wrong must be found again.
using System.Collections.Immutable;
using System.Text;
using System.Text.Json;

namespace ChordLang.Checks.Configuring;

/// <summary>A part of a JSON document.</summary>
/// <param name="Kind">Object, array, string, number, true, false or null.</param>
/// <param name="Text">A string's or number's text; else empty.</param>
/// <param name="Line">Its line, from 0.</param>
internal sealed record JsonPart(JsonTokenType Kind, string Text, int Line)
{
    private static readonly JsonReaderOptions Options = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    /// <summary>An object's members, in order.</summary>
    public ImmutableArray<(string Key, int Line, JsonPart Value)> Members { get; private init; } = [];

    /// <summary>An array's items.</summary>
    public ImmutableArray<JsonPart> Items { get; private init; } = [];

    /// <summary>Reads a document; a <see cref="JsonException"/> says where it is none. Comments and a comma too many are let pass.</summary>
    public static JsonPart Read(string text)
    {
        var bytes = Encoding.UTF8.GetBytes(text.TrimStart('\uFEFF'));
        var reader = new Utf8JsonReader(bytes, Options);
        reader.Read();
        var lines = new LineCount(bytes);
        var whole = Read(ref reader, lines);
        reader.Read();
        return whole;
    }

    // Depth is bounded by the reader's own limit of 64.
    private static JsonPart Read(ref Utf8JsonReader reader, LineCount lines)
    {
        var part = new JsonPart(reader.TokenType, reader.TokenType is JsonTokenType.String ? reader.GetString()!
            : reader.TokenType is JsonTokenType.Number ? Encoding.UTF8.GetString(reader.ValueSpan) : "", lines.At(reader.TokenStartIndex));
        if (reader.TokenType == JsonTokenType.StartObject)
        {
            var members = ImmutableArray.CreateBuilder<(string, int, JsonPart)>();
            while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
            {
                var (key, line) = (reader.GetString()!, lines.At(reader.TokenStartIndex));
                reader.Read();
                members.Add((key, line, Read(ref reader, lines)));
            }
            return part with { Members = members.ToImmutable() };
        }
        if (reader.TokenType != JsonTokenType.StartArray)
            return part;
        var items = ImmutableArray.CreateBuilder<JsonPart>();
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
            items.Add(Read(ref reader, lines));
        return part with { Items = items.ToImmutable() };
    }

    // Offsets only grow, so the lines are counted once.
    private sealed class LineCount(byte[] bytes)
    {
        private int line, done;

        public int At(long offset)
        {
            for (; done < offset; done++)
                line += bytes[done] == '\n' ? 1 : 0;
            return line;
        }
    }
}
