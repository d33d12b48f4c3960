// Hovers of settings: what they say, and what follows from it.
using ChordLang.Arrangement.Music;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Hovers;

internal static class SettingHover
{
    public static HoverText Of(Lesson lesson, int line, SettingLine syntax, Span span)
    {
        if (syntax.Value is not { } value)
            return HoverAt.Unread(lesson, line, span);
        var from = lesson.Piece.Bars.FirstOrDefault(b => b.Line > line);
        var settings = from?.Settings ?? lesson.SettingsAt(line);
        var first = lesson.Piece.Bars.IsEmpty || lesson.Piece.Bars[0].Line > line;
        var start = first || from is null ? null : $"It holds from {Say.Bar(from)} on.";
        return HoverText.Of(span, Says(syntax.Kind, value, settings), More(syntax.Kind, settings), start);
    }

    private static string Says(SettingKind kind, SettingValue value, Settings settings) => (kind, value) switch
    {
        (SettingKind.Title, TextValue v) => $"The piece is called {v.Text}.",
        (SettingKind.By, TextValue v) => $"It was written by {v.Text}.",
        (SettingKind.Feel, TextValue v) => $"It is played with a {v.Text} feel.",
        (SettingKind.Key, _) when settings.Key is { } key => $"The key is {key}, with {Signature(key.Fifths)}.",
        (SettingKind.Meter, MeterValue v) => $"Each bar has {Say.Number(v.Counts, "count")}, and each count is {Note(v.Unit)}.",
        (SettingKind.Tempo, TempoValue { BeatsPerMinute: { } beats, Rubato: true }) => $"Free time, around {beats:0.#} beats a minute.",
        (SettingKind.Tempo, TempoValue { BeatsPerMinute: { } beats }) => $"{beats:0.#} beats a minute.",
        (SettingKind.Tempo, _) => "Free time: nobody counts along.",
        (SettingKind.Strings, TuningValue v) => $"The instrument has {v.Open.Length} strings, lowest first: {settings.Neck.Tuning}.",
        (SettingKind.Capo, NumberValue v) => v.Number == 0 ? "No capo." : $"A capo lies on fret {v.Number}; frets count from it, and pitches are as they sound.",
        (SettingKind.Frets, NumberValue v) => $"The neck has {v.Number} frets.",
        (SettingKind.ScaleLength, LengthValue v) => $"The strings are {v.Millimetres:0.#} mm long from nut to bridge.",
        (SettingKind.Reach, ReachValue v) => $"The hand reaches with the first finger on fret {v.From} and the little finger on fret {v.To}.",
        (SettingKind.Naming, NamingValue v) => v.Strict ? "Strict naming: a symbol has to name every tone that sounds." : "Jazz naming: a symbol may leave colours unnamed, and players may leave out root and fifth.",
        (SettingKind.Position, NumberValue v) => $"The first finger stays near fret {v.Number}.",
        (SettingKind.Tags, TagsValue v) => $"It is filed under {Say.List(v.Tags)}.",
        _ => $"{kind} is set here.",
    };

    private static string? More(SettingKind kind, Settings settings) => kind switch
    {
        SettingKind.Key when settings.Key is { } key => $"Its tones: {string.Join(' ', Scale(key))}.",
        SettingKind.Meter when settings.Meter.Compound => $"It is felt in {Say.Number(settings.Meter.Counts / 3, "beat")} of three counts.",
        SettingKind.Reach or SettingKind.ScaleLength => Fretboard.Hands.Caution.Text,
        SettingKind.Capo when settings.Neck.Capo > 0 => $"The open strings sound {string.Join(' ', Enumerable.Range(1, settings.Neck.Tuning.Strings).Reverse().Select(s => Pitch.Nearest(settings.Neck.Midi(s, 0))))}.",
        _ => null,
    };

    private static IEnumerable<PitchName> Scale(Key key)
    {
        var tonic = key.Tonic ?? PitchName.FromFifths(key.Fifths);
        return Enumerable.Range(-1, 7).Select(k => PitchName.FromFifths(key.Fifths + k)).OrderBy(n => (n.Letter - tonic.Letter + 7) % 7);
    }

    private static string Signature(int fifths) => fifths switch { 0 => "no sharps or flats", > 0 => Say.Number(fifths, "sharp"), _ => Say.Number(-fifths, "flat") };

    private static string Note(int unit) => unit switch { 2 => "a half note", 4 => "a quarter note", 8 => "an eighth note", 16 => "a sixteenth note", _ => $"a {unit}th note" };
}
