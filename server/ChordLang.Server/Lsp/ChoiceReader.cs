// Reads a user's choices as an editor sends them.
using System.Text.Json;
using ChordLang.Features.Choices;

namespace ChordLang.Server.Lsp;

internal static class ChoiceReader
{
    private const int MostVoicings = 40;

    /// <summary>The choices in a JSON value over those that hold without it; what is missing, or of a wrong type, stays as it was.</summary>
    public static EditorChoices Read(JsonElement? value, EditorChoices without)
    {
        if (value is not { ValueKind: JsonValueKind.Object } given)
            return without;
        var hints = given.TryGetProperty("hints", out var h) && h.ValueKind == JsonValueKind.Object ? h : default;
        bool Bool(JsonElement at, string name, bool old) => at.ValueKind == JsonValueKind.Object && at.TryGetProperty(name, out var v) && v.ValueKind is JsonValueKind.True or JsonValueKind.False ? v.GetBoolean() : old;
        return without with
        {
            Hints = new(Bool(hints, "barNumbers", without.Hints.BarNumbers), Bool(hints, "numerals", without.Hints.Numerals), Bool(hints, "names", without.Hints.Names),
                Bool(hints, "places", without.Hints.Places), Bool(hints, "pitches", without.Hints.Pitches)),
            Lenses = Bool(given, "lenses", without.Lenses),
            Voicings = given.TryGetProperty("voicings", out var n) && n.ValueKind == JsonValueKind.Number && n.TryGetInt32(out var many) ? Math.Clamp(many, 0, MostVoicings) : without.Voicings,
        };
    }
}
